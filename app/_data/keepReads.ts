import type { QueryClient } from '@tanstack/react-query';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { SessionView } from '#lib/contract/sessionView';
import { mayKeepRead } from '#lib/evaluation/mayKeepRead';
import { openDeviceDatabase, type KeptRead } from './deviceDatabase';
import { otherPages } from './otherPages';
import type { useTRPC } from './trpc';

type Asked = Pick<ReturnType<typeof useTRPC>, 'evaluation' | 'card' | 'session'>;
type Setting = {
  readonly queries: QueryClient;
  readonly trpc: Asked;
  readonly now: () => number;
  /** Another page of this browser has signed the seat out. */
  readonly onLeft: () => void;
};

const keptPaths = new Set(['evaluation.get', 'card.mine', 'session.me']);
const endCodes: readonly unknown[] = ['not-signed-in', 'not-found'];

/**
 * Keeps three reads of the seat's own on this device (its evaluation, its card, who it is) and puts them in the page
 * before the server has answered, so that scoring opens without it. Kept only while `mayKeepRead` says so; gone when the
 * round is revealed, the session has ended or the seat signs out. Returns the way to stop.
 */
export function keepReads({ queries, trpc, now, onLeft }: Setting): () => void {
  const device = openDeviceDatabase();
  let over = false;
  void device
    .use((db) => db.getAll('reads'))
    .then((reads) => reads.forEach((read) => show({ queries, trpc }, read)))
    .catch(() => undefined);

  // Not being able to keep a read costs nothing now: the entries themselves are the outbox's to keep, and it says so if it cannot.
  const keep = (read: KeptRead) => void device.use((db) => db.put('reads', read)).catch(() => undefined);
  const drop = (id: string) => void device.use((db) => db.delete('reads', id)).catch(() => undefined);
  const settle = (evaluation: EvaluationView) => {
    const { id } = evaluation;
    const me = queries.getQueryData(trpc.session.me.queryKey()) ?? null;
    const stranger = me !== null && !me.owner && me.seat === null;
    if (over || stranger || !mayKeepRead(evaluation)) return drop(id);
    keep({ id, at: now(), evaluation, mine: queries.getQueryData(trpc.card.mine.queryKey({ id })) ?? null, me });
  };
  const settleAll = () => {
    for (const [, evaluation] of queries.getQueriesData<EvaluationView>(trpc.evaluation.get.queryFilter()))
      if (evaluation) settle(evaluation);
  };

  const unsubscribe = queries.getQueryCache().subscribe((event) => {
    if (event.type !== 'updated' || !keptPaths.has(pathOf(event.query.queryKey as readonly unknown[]))) return;
    // What is put in by hand comes from here and would be kept with the time of today.
    if (event.action.type === 'success' && event.action.manual !== true) settleAll();
    if (event.action.type === 'error' && endCodes.includes(codeOf(event.action.error)))
      void device.use((db) => db.clear('reads')).catch(() => undefined);
  });
  const left = ({ data }: MessageEvent) => {
    if (data !== 'left') return;
    over = true;
    onLeft();
  };
  const others = otherPages();
  others?.addEventListener('message', left);
  return () => {
    unsubscribe();
    others?.removeEventListener('message', left);
    device.close();
  };
}

function show({ queries, trpc }: Pick<Setting, 'queries' | 'trpc'>, { id, at, evaluation, mine, me }: KeptRead): void {
  const put = <T>(key: readonly unknown[], value: T | null) => {
    if (value !== null && queries.getQueryData(key) === undefined) queries.setQueryData(key, value, { updatedAt: at });
  };
  put(trpc.evaluation.get.queryKey({ id }), evaluation);
  put(trpc.card.mine.queryKey({ id }), mine);
  put<SessionView>(trpc.session.me.queryKey(), me);
}

/** Keys of queries start with the procedure's path, word by word. */
function pathOf(key: readonly unknown[]): string {
  const [path] = key;
  return Array.isArray(path) ? path.join('.') : '';
}

function codeOf(error: unknown): unknown {
  if (typeof error !== 'object' || error === null || !('data' in error)) return null;
  const { data } = error;
  return typeof data === 'object' && data !== null && 'code' in data ? data.code : null;
}
