import type { Answer } from '#lib/contract/entry';
import { canonicalCards } from '#lib/evaluation/cards';
import { decideClose, decideLock, decideReopen, decideReveal, everySeatLocked } from '#lib/evaluation/rounds';
import { entryField, receiveEntry, type Standing } from '#lib/evaluation/entries';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { registerOf, type OwnRead } from '#lib/evaluation/outboxState';
import type { Bell, KeptEntry, SimulatedServer } from './simulatedServer';

/** Ways to break the server that the simulation must notice. */
export type ServerFault =
  | 'forgets-repeats'
  | 'applies-late'
  | 'last-arrival-wins'
  | 'acknowledges-before-commit'
  | 'rings-nobody';

type Held = Answer & Standing & { readonly seatId: string };

/** The server made of the rules in lib alone: what is assigned is committed, and a crash loses nothing that was. */
export function pureServer(start: EvaluationFacts, fault: ServerFault | null = null): SimulatedServer {
  let facts = start;
  let history: KeptEntry[] = [];
  let answers = new Map<string, Held>();
  let uncommitted: (() => void) | null = null;
  let revealed: ReadonlyMap<string, Held> | null = null;
  let bells: Bell[] = [];
  let seen = new Map<string, KeptEntry>();
  let backup: {
    readonly facts: EvaluationFacts;
    readonly history: readonly KeptEntry[];
    readonly answers: ReadonlyMap<string, Held>;
  } | null = null;
  const versions = new Map<string, number>();

  const ring = (seatId: string | null) => {
    const audience = seatId ?? 'all';
    versions.set(audience, (versions.get(audience) ?? 0) + 1);
    if (fault !== 'rings-nobody') bells.push({ seatId });
  };
  const setRound = (state: 'open' | 'closed' | 'revealed') => {
    if (facts.round) facts = { ...facts, round: { ...facts.round, state } };
  };
  const setLocks = (lockedAt: (seatId: string, before: number | null) => number | null) => {
    facts = { ...facts, seats: facts.seats.map((seat) => ({ ...seat, lockedAt: lockedAt(seat.id, seat.lockedAt) })) };
  };
  const ownAnswers = (seatId: string): Answer[] =>
    [...answers.values()]
      .filter((one) => one.seatId === seatId)
      .map(({ subject, field, counter, body }) => ({ subject, field, counter, body }));

  return {
    submit: ({ seatId, deviceId }, entries) => {
      const seat = facts.seats.find((one) => one.id === seatId);
      if (!seat) throw new Error('no such seat');
      const before =
        fault === 'acknowledges-before-commit' ? { history: [...history], answers: new Map(answers) } : null;
      let fresh = false;
      const outcomes = entries.map((entry) => {
        const field = entryField(entry.body);
        const register = `${seatId} ${registerOf(entry.subject, field)}`;
        const known = fault === 'forgets-repeats' ? undefined : seen.get(entry.id);
        const receipt = receiveEntry(
          { facts, seat, deviceId, entry },
          {
            seen: known ?? null,
            standingIn: () => (fault === 'last-arrival-wins' ? null : (answers.get(register) ?? null)),
          },
        );
        if (receipt.keepIn === null) return receipt.outcome;
        fresh = true;
        const { status } = receipt.outcome;
        const kept: KeptEntry = { entry, seatId, deviceId, status };
        history.push(kept);
        seen.set(entry.id, kept);
        if (status === 'applied' || (status === 'late' && fault === 'applies-late')) {
          answers.set(register, {
            seatId,
            subject: entry.subject,
            field,
            counter: entry.counter,
            body: entry.body,
            deviceId,
            madeAt: entry.madeAt,
            deviceEnded: false,
          });
        }
        return receipt.outcome;
      });
      if (fresh) ring(seatId);
      if (before && fresh) {
        uncommitted = () => {
          history = before.history;
          answers = before.answers;
          seen.clear();
          for (const kept of history) seen.set(kept.entry.id, kept);
        };
      }
      return outcomes;
    },
    lock: ({ seatId }, shown) => {
      if (!facts.round || decideLock(facts, seatId) !== null) return false;
      const text = (cards: readonly Answer[]) =>
        canonicalCards({ roundId: start.round?.id ?? '', seatId, answers: cards });
      if (text(shown) !== text(ownAnswers(seatId))) return false;
      setLocks((id, before) => (id === seatId ? 1 : before));
      if (everySeatLocked(facts)) setRound('closed');
      ring(null);
      return true;
    },
    close: () => {
      if (decideClose(facts) !== null) return false;
      setRound('closed');
      ring(null);
      return true;
    },
    reopen: () => {
      if (decideReopen(facts) !== null) return false;
      setRound('open');
      setLocks(() => null);
      ring(null);
      return true;
    },
    reveal: () => {
      if (decideReveal(facts) !== null) return false;
      setRound('revealed');
      revealed = new Map(answers);
      ring(null);
      return true;
    },
    read: (seatId) => ({
      answers: ownAnswers(seatId),
      all: versions.get('all') ?? 0,
      own: versions.get(seatId) ?? 0,
      round: roundFor(facts, seatId),
    }),
    backUp: () => {
      backup = { facts, history: [...history], answers: new Map(answers) };
    },
    restore: (closes) => {
      if (!backup || revealed) return null;
      uncommitted = null;
      facts = backup.facts;
      history = [...backup.history];
      answers = new Map(backup.answers);
      seen = new Map(history.map((kept) => [kept.entry.id, kept]));
      if (closes && facts.round?.state === 'open') setRound('closed');
      ring(null);
      for (const { id } of facts.seats) ring(id);
      return {
        round: facts.round?.state === 'open' ? 'open' : 'closed',
        locked: facts.seats.filter((seat) => seat.lockedAt !== null).map((seat) => seat.id),
      };
    },
    crash: () => {
      uncommitted?.();
      uncommitted = null;
    },
    setClock: () => undefined,
    takeBells: () => {
      const rung = bells;
      bells = [];
      return rung;
    },
    history: (from = 0) => (from === 0 ? history : history.slice(from)),
    snapshot: (seatId) =>
      revealed &&
      [...revealed.values()]
        .filter((one) => one.seatId === seatId)
        .map(({ subject, field, counter, body }) => ({ subject, field, counter, body })),
    end: () => undefined,
  };
}

/** Whether an entry of a seat's would count now. */
export function roundFor({ round, seats }: EvaluationFacts, seatId: string): OwnRead['round'] {
  if (round?.state === 'revealed') return 'revealed';
  return round?.state === 'open' && seats.find((seat) => seat.id === seatId)?.lockedAt === null ? 'open' : 'shut';
}
