import 'fake-indexeddb/auto';
import { QueryClient } from '@tanstack/react-query';
import { createTRPCClient, httpLink } from '@trpc/client';
import { createTRPCOptionsProxy } from '@trpc/tanstack-react-query';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { openDeviceDatabase } from '#app/_data/deviceDatabase';
import { keepReads } from '#app/_data/keepReads';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { AppRouter } from '#server/api/router';

const id = 'e'.repeat(32);
const seatId = '5'.repeat(32);
const me = { owner: false, seat: { id: seatId, label: 'mentor', evaluationId: id }, demo: false };
const mine = { roundId: 'r'.repeat(32), answers: [] };

type State = 'open' | 'closed' | 'revealed' | null;
/** As far as the rule looks at it. */
const view = (state: State, kind = 'live') =>
  ({
    id,
    viewer: { owner: false, seatId, leads: false },
    seats: [{ id: seatId, kind }],
    round: state === null ? null : { id: mine.roundId, state },
  }) as unknown as EvaluationView;

const trpc = createTRPCOptionsProxy<AppRouter>({
  client: createTRPCClient<AppRouter>({ links: [httpLink({ url: 'http://nowhere.example' })] }),
  queryClient: new QueryClient(),
});
const stops: (() => void)[] = [];

function page() {
  const queries = new QueryClient({ defaultOptions: { queries: { retry: false } } });
  stops.push(keepReads({ queries, trpc, now: () => 7000, onLeft: () => undefined }));
  const answer = (key: readonly unknown[], value: unknown) =>
    queries.fetchQuery({ queryKey: key, queryFn: async () => value });
  const refuse = (key: readonly unknown[], code: string) =>
    queries
      .fetchQuery({ queryKey: key, queryFn: () => Promise.reject(Object.assign(new Error(code), { data: { code } })) })
      .catch(() => undefined);
  return { queries, answer, refuse };
}

const keys = {
  evaluation: trpc.evaluation.get.queryKey({ id }),
  mine: trpc.card.mine.queryKey({ id }),
  me: trpc.session.me.queryKey(),
};

async function kept() {
  const device = openDeviceDatabase();
  const reads = await device.use((db) => db.getAll('reads'));
  device.close();
  return reads;
}

beforeEach(() => {
  vi.stubGlobal('BroadcastChannel', undefined);
});

afterEach(async () => {
  for (const stop of stops.splice(0)) stop();
  const device = openDeviceDatabase();
  await device.use((db) => db.clear('reads'));
  device.close();
  vi.unstubAllGlobals();
});

it.each([
  ['before a round', view(null)],
  ['after the reveal', view('revealed')],
  ['for a seat that does not score', view('open', 'none')],
])('BL1: nothing is kept %s', async (_when, evaluation) => {
  const { answer } = page();
  await answer(keys.me, me);
  await answer(keys.evaluation, evaluation);
  await answer(keys.mine, mine);
  await new Promise((resolve) => setTimeout(resolve, 30));
  expect(await kept()).toEqual([]);
});

it('BL1: three reads of the seat’s own are kept while the round is open or closed, and nothing else', async () => {
  const { answer } = page();
  await answer(keys.me, me);
  await answer(keys.evaluation, view('open'));
  await answer(keys.mine, mine);
  await answer(trpc.record.list.queryKey({ id }), [{ kind: 'something else' }]);
  const all = { id, at: 7000, evaluation: view('open'), mine, me };
  await vi.waitFor(async () => expect(await kept()).toEqual([all]));
  await answer(keys.evaluation, view('closed'));
  await vi.waitFor(async () => expect(await kept()).toEqual([{ ...all, evaluation: view('closed') }]));
});

it.each([
  ['the round is revealed', ({ answer }: ReturnType<typeof page>) => answer(keys.evaluation, view('revealed'))],
  ['the session has ended', ({ refuse }: ReturnType<typeof page>) => refuse(keys.evaluation, 'not-signed-in')],
  [
    'the browser turns out to be a stranger’s',
    ({ answer }: ReturnType<typeof page>) => answer(keys.me, { ...me, seat: null }),
  ],
])('BL1: what was kept is gone once %s', async (_when, happen) => {
  const one = page();
  await one.answer(keys.evaluation, view('open'));
  await vi.waitFor(async () => expect(await kept()).toHaveLength(1));
  await happen(one);
  await vi.waitFor(async () => expect(await kept()).toEqual([]));
});

it('LV1: a link that fails changes nothing of what is kept', async () => {
  const one = page();
  await one.answer(keys.evaluation, view('open'));
  await vi.waitFor(async () => expect(await kept()).toHaveLength(1));
  await one.queries
    .fetchQuery({ queryKey: keys.evaluation, queryFn: () => Promise.reject(new TypeError('no link')) })
    .catch(() => undefined);
  await new Promise((resolve) => setTimeout(resolve, 30));
  expect(await kept()).toHaveLength(1);
});

it('LV1: a page opened later shows what is kept, as of when it was read, and gives way to what the server says', async () => {
  const first = page();
  await first.answer(keys.me, me);
  await first.answer(keys.evaluation, view('open'));
  await first.answer(keys.mine, mine);
  await vi.waitFor(async () => expect((await kept())[0]?.mine).toEqual(mine));
  const later = page();
  await vi.waitFor(() => expect(later.queries.getQueryData(keys.evaluation)).toEqual(view('open')));
  expect(later.queries.getQueryData(keys.mine)).toEqual(mine);
  expect(later.queries.getQueryData(keys.me)).toEqual(me);
  expect(later.queries.getQueryState(keys.evaluation)?.dataUpdatedAt).toBe(7000);
  const told = page();
  await told.answer(keys.evaluation, view('closed'));
  await new Promise((resolve) => setTimeout(resolve, 30));
  expect(told.queries.getQueryData(keys.evaluation)).toEqual(view('closed'));
});
