import type { EvaluationPhase, RoundState } from '../evaluation/phase';
import type { PromisedEvaluation, PromisedRound, RecordLine } from './promises';
import { bindingsIn, type RecordKind } from './recordKinds';
import { all, bound, fault, outOfPlace, seatIn, unboundLine } from './recordLine';
import { removeWords } from './removedWords';

/** Replays the whole record; `begun` is the first line that binds, null in a file no server of this version has opened. */
export function promisedState(lines: readonly RecordLine[]): {
  readonly evaluations: ReadonlyMap<string, PromisedEvaluation>;
  readonly begun: number | null;
  readonly faults: readonly { readonly seq: number; readonly words: string }[];
} {
  const evaluations = new Map<string, PromisedEvaluation>();
  const faults: { seq: number; words: string }[] = [];
  for (const line of lines) {
    const { evaluationId, kind, seq } = line;
    if (!isKnown(kind)) {
      faults.push({ seq, words: 'this line is of a kind that is not known here' });
      continue;
    }
    if (evaluationId === null) continue;
    const state = evaluations.get(evaluationId) ?? nothingYet(evaluationId, seq);
    evaluations.set(evaluationId, state);
    replay[kind](state, line);
  }
  return { evaluations, begun: lines.find((line) => line.kind === 'binding-begun')?.seq ?? null, faults };
}

function nothingYet(id: string, firstSeq: number): PromisedEvaluation {
  return {
    id,
    firstSeq,
    known: false,
    bound: false,
    boundFromStart: false,
    phase: 'preparing',
    ownerSeat: null,
    seats: new Map(),
    joins: new Map(),
    letIn: new Map(),
    ended: [],
    moved: [],
    confirmed: new Set(),
    withdrawals: [],
    typed: [],
    wordsRemoved: new Set(),
    rounds: [],
    batches: [],
    clearances: [],
    addenda: [],
    decisions: [],
    notes: null,
    homes: 0,
    imported: [],
    results: [],
    moments: [],
    faults: [],
  };
}

type Step = (state: PromisedEvaluation, line: RecordLine) => void;

/** Tells of something that leaves nothing behind to be held to, or that has a history of its own. */
const tells: Step = () => undefined;

const isKnown = (kind: string): kind is RecordKind => Object.hasOwn(replay, kind);

const replay: Readonly<Record<RecordKind, Step>> = {
  'evaluation-created': (state, line) => {
    if (line.seq !== state.firstSeq) fault(state, line, outOfPlace);
    state.known = true;
    // The line that begins to bind follows; what this one binds is read then.
    state.ownerSeat = bindingsIn(line.detail).find(([name]) => name === 'seat')?.[1] ?? null;
  },
  'binding-begun': (state, line) => {
    if (state.bound) fault(state, line, outOfPlace);
    state.bound = true;
    state.boundFromStart = line.seq === state.firstSeq + 1 && state.known;
    if (state.boundFromStart && state.ownerSeat === null) fault(state, line, unboundLine);
    if (!state.boundFromStart) state.ownerSeat = null;
  },
  'set-up-saved': during('preparing', tells),
  restored: tells,
  'seat-added': (state, line) => state.seats.set(seatIn(line.detail), bound(state, line, 'seat')),
  'seat-changed': during('preparing', changeSeat),
  'seat-removed': during('preparing', (state, line) => void state.seats.delete(seatIn(line.detail))),
  'seat-joined': (state, line) => void count(state.joins, seatIn(line.actor)),
  'seat-reissued': (state, line) => void state.ended.push({ seat: seatIn(line.detail), at: line.at }),
  'seat-ended': (state, line) => void state.ended.push({ seat: seatIn(line.detail), at: line.at }),
  'seat-locked': inRound('open', ({ round }, line) => void round.locked.add(seatIn(line.actor))),
  'link-made': tells,
  'link-refused': tells,
  'code-made': tells,
  'device-let-in': (state, line) => void count(state.letIn, seatIn(line.actor)),
  'owner-signed-in': tells,
  'owner-sessions-ended': tells,
  'passphrase-set': tells,
  'pick-order-confirmed': during('preparing', (state, line) => void state.confirmed.add(seatIn(line.actor))),
  'puppy-withdrawn': (state, line) => {
    if (state.rounds.some((round) => round.state === 'revealed')) fault(state, line, outOfPlace);
    state.withdrawals.push(bound(state, line, 'withdrawal'));
  },
  'puppy-brought-back': (state, line) => {
    if (state.rounds.some((round) => round.state === 'revealed')) fault(state, line, outOfPlace);
    const hash = bound(state, line, 'withdrawal');
    const named = state.withdrawals.lastIndexOf(hash);
    // A withdrawal from before lines bound anything is known by its number alone.
    const at = named >= 0 ? named : state.withdrawals.indexOf(null);
    if (at >= 0) state.withdrawals.splice(at, 1);
    else if (state.known) fault(state, line, outOfPlace);
  },
  'card-moved': inRound('open', ({ state }, line) => void state.moved.push({ seat: seatIn(line.actor), at: line.at })),
  'card-typed': inRound('open', ({ state, round }, line) => {
    if (round.locked.has(seatIn(line.detail))) fault(state, line, outOfPlace);
    round.typed = true;
    state.typed.push(bound(state, line, 'typed'));
  }),
  'paper-locked': inRound('open', ({ state, round }, line) => {
    if (!round.typed) fault(state, line, outOfPlace);
    round.locked.add(seatIn(line.detail));
  }),
  'words-removed': removeWords,
  'round-opened': during('preparing', (state, line) => {
    state.phase = 'scoring';
    state.rounds.push(openedRound(state, line, 'scored'));
  }),
  'second-round-opened': during('deciding', (state, line) => {
    if (state.rounds.length !== 1 || state.rounds[0]?.state !== 'revealed') fault(state, line, outOfPlace);
    state.rounds.push(openedRound(state, line, 'second'));
  }),
  'round-closed': inRound('open', ({ round }) => void (round.state = 'closed')),
  committed: inRound('closed', commit),
  'committed-unlocked': inRound('closed', commit),
  'round-reopened': inRound('closed', ({ state, round }, line) => {
    // The owner's lock stands, and with it her commitment, once a card was typed from paper.
    const standing = seatIn(line.detail);
    if (standing !== '' && !(round.typed && round.locked.has(standing))) fault(state, line, outOfPlace);
    round.state = 'open';
    round.void.push(...[...round.committed].flatMap(([seat, hash]) => (seat === standing ? [] : [hash])));
    round.committed.clear();
    for (const seat of [...round.locked]) if (seat !== standing) round.locked.delete(seat);
  }),
  'round-revealed': inRound('closed', ({ state, round }, line) => {
    round.state = 'revealed';
    round.snapshot = /^[0-9a-f]{64}/.exec(line.detail)?.slice() ?? null;
    if (state.bound && round.snapshot === null) fault(state, line, unboundLine);
    round.scores = bound(state, line, 'scores');
    state.phase = 'deciding';
    happened(state);
  }),
  'came-late': (state, line) => {
    const round = state.rounds[Number(/^round (\d+):/.exec(line.detail)?.[1]) - 1];
    if (round?.state !== 'revealed') fault(state, line, outOfPlace);
    else round.late = { late: bound(state, line, 'late'), lateWords: bound(state, line, 'lateWords') };
  },
  'entries-sent-again': tells,
  'look-opened': during('deciding', (state, line) => {
    if (state.batches.some((batch) => batch.state !== 'revealed')) fault(state, line, outOfPlace);
    state.batches.push({ state: 'open', looks: bound(state, line, 'looks'), answers: null });
  }),
  'look-stopped': during('deciding', (state, line) => {
    const batch = state.batches.at(-1);
    if (batch?.state !== 'open') return fault(state, line, outOfPlace);
    batch.state = 'closed';
  }),
  'look-closed': during('deciding', (state, line) => {
    const batch = state.batches.at(-1);
    if (!batch || batch.state === 'revealed') return fault(state, line, outOfPlace);
    batch.state = 'revealed';
    batch.answers = bound(state, line, 'answers');
    happened(state);
  }),
  // From before there was a choice: every answer cleared.
  'hold-cleared': during('deciding', answerHold),
  'hold-answered': during('deciding', answerHold),
  decided: during('deciding', decide),
  'decision-taken-back': during('deciding', decide),
  'behaviour-noted': during('deciding', addendum),
  'addendum-written': during('sealed', addendum),
  sealed: during('deciding', (state, line) => {
    state.phase = 'sealed';
    state.notes = { notes: bound(state, line, 'notes'), noteWords: bound(state, line, 'noteWords') };
    takeResult(state, line);
  }),
  'home-linked': during('sealed', (state) => void (state.homes += 1)),
  'home-ended': during('sealed', tells),
  // After the lines it came with; nothing is written of it here before.
  imported: (state, line) => {
    const open =
      state.rounds.some((round) => round.state !== 'revealed') ||
      state.batches.some((batch) => batch.state !== 'revealed');
    if (state.imported.length > 0 || state.rounds.length === 0 || open) fault(state, line, outOfPlace);
    state.imported.push(bound(state, line, 'lines'));
  },
};

function during(phase: EvaluationPhase, step: Step): Step {
  return (state, line) => {
    if (state.known && state.phase !== phase) fault(state, line, outOfPlace);
    step(state, line);
  };
}

type InRound = { readonly state: PromisedEvaluation; readonly round: PromisedRound };

function inRound(expected: RoundState, step: (at: InRound, line: RecordLine) => void): Step {
  return (state, line) => {
    const round = state.rounds.at(-1);
    if (round?.state === expected) step({ state, round }, line);
    else if (state.known) fault(state, line, outOfPlace);
  };
}

function count(counts: Map<string, number>, key: string): void {
  counts.set(key, (counts.get(key) ?? 0) + 1);
}

function changeSeat(state: PromisedEvaluation, line: RecordLine): void {
  const hash = bound(state, line, 'seat');
  const id = seatIn(line.detail);
  // The owner's own seat came with the evaluation and has no line of its own.
  if (state.seats.has(id)) state.seats.set(id, hash);
  else state.ownerSeat = hash;
}

function openedRound(state: PromisedEvaluation, line: RecordLine, occasion: PromisedRound['occasion']): PromisedRound {
  const terms = bound(state, line, 'terms');
  const agreed = bound(state, line, 'agreed');
  return {
    occasion,
    state: 'open',
    terms,
    typed: false,
    agreed,
    locked: new Set(),
    committed: new Map(),
    void: [],
    snapshot: null,
    scores: null,
    late: null,
  };
}

function commit({ state, round }: InRound, line: RecordLine): void {
  const seat = seatIn(line.actor);
  if (round.committed.has(seat) || round.locked.has(seat) !== (line.kind === 'committed'))
    fault(state, line, outOfPlace);
  round.committed.set(seat, line.detail);
}

function decide(state: PromisedEvaluation, line: RecordLine): void {
  takeResult(state, line);
  state.decisions.push({ decision: bound(state, line, 'decision'), reason: bound(state, line, 'reason') });
  happened(state);
}

function answerHold(state: PromisedEvaluation, line: RecordLine): void {
  state.clearances.push(bound(state, line, 'clearance'));
  happened(state);
}

function addendum(state: PromisedEvaluation, line: RecordLine): void {
  state.addenda.push(bound(state, line, 'addendum'));
}

/** What the engine had said when somebody decided on it, or sealed. */
function takeResult(state: PromisedEvaluation, line: RecordLine): void {
  const [question] = all(line, 'question');
  const [result] = all(line, 'result');
  if (state.bound && question !== undefined && result !== undefined) state.results.push({ question, result });
}

function happened({ rounds, batches, decisions, clearances, moments }: PromisedEvaluation): void {
  moments.push({
    rounds: rounds.filter((round) => round.state === 'revealed').length,
    batches: batches.filter((batch) => batch.state === 'revealed').length,
    decisions: decisions.length,
    clearances: clearances.length,
  });
}
