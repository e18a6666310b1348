import type { BoardView } from '../contract/boardView';
import type { Hold } from '../contract/decisionView';
import { type PurposeKey, purposeKeySchema } from '../contract/setup';
import type { Snapshot } from '../contract/snapshot';
import type { AgreementBand } from '#lib/reconcile/agreement/agreementBand';
import { criterionSpread } from '#lib/reconcile/agreement/criterionSpread';
import type { EvaluatorProfile } from '#lib/reconcile/seats/evaluatorProfile';
import { lookSettings } from '#lib/reconcile/looks/lookSettings';
import { lookVerdict } from '#lib/reconcile/looks/lookVerdict';
import { looksAlone } from '#lib/reconcile/looks/looksAlone';
import type { LookAnswer, Panel } from '#lib/reconcile/panel/panel';
import { panelFromSnapshot } from '#lib/reconcile/panel/panelFromSnapshot';
import type { PurposeResult, Reconciliation, SlotResult } from '#lib/reconcile/merit/reconciliation';
import { repeatDifferences } from '#lib/reconcile/seats/repeatDifferences';
import { repeatsFromSnapshot } from '#lib/reconcile/panel/repeatsFromSnapshot';
import { roundShift } from '#lib/reconcile/talk/roundShift';
import type { SeatQuestions } from '#lib/reconcile/seats/seatQuestions';
import { agendaSentence } from '../reconcile/sentences/agendaSentence';
import { closeCallSentence } from '../reconcile/sentences/closeCallSentence';
import { identicalSeatsSentence } from '../reconcile/sentences/identicalSeatsSentence';
import { lookVerdictSentence } from '../reconcile/sentences/lookVerdictSentence';
import { looksAloneSentence } from '../reconcile/sentences/looksAloneSentence';
import { meritSentence } from '../reconcile/sentences/meritSentence';
import { plainMeanSentence } from '../reconcile/sentences/plainMeanSentence';
import { reversedSentence, scaleUseSentence } from '../reconcile/sentences/robustnessSentences';
import { roundShiftSentence } from '../reconcile/sentences/roundShiftSentence';
import { severitySentence } from '../reconcile/sentences/severitySentence';
import { checkCatalogue } from '../sheet/checkCatalogue';
import { blindTo } from './blindTo';
import { snapshotCards } from './snapshotCards';

type RevealedResult = {
  /** Second scores where given, else first. */
  readonly snapshot: Snapshot;
  readonly first: Snapshot;
  readonly second: Snapshot | null;
  readonly panel: Panel;
  readonly reconciliation: Reconciliation;
  readonly bands: Readonly<Record<string, AgreementBand>>;
  readonly profiles: readonly EvaluatorProfile[];
  readonly questions: SeatQuestions;
  readonly holds: readonly Hold[];
  readonly lateEntries: number;
  /** When the data came back from a backup (BL7). */
  readonly restores: readonly number[];
  readonly anonymous: boolean;
  readonly viewerSeatId: string | null;
  readonly looks: readonly LookAnswer[];
  /** Closed batches of second looks by slot, and how many were agreed for one. */
  readonly batches: { readonly used: Readonly<Record<string, number>>; readonly agreed: number };
};

/** What every member sees once a round is revealed: numbers, the sentence beside each, and every seat's dots (BL2). */
export function boardView(revealed: RevealedResult): BoardView {
  const board = namedBoard(revealed);
  return revealed.anonymous ? anonymousBoard(board, revealed.viewerSeatId) : board;
}

function namedBoard(revealed: RevealedResult): BoardView {
  const { snapshot, reconciliation } = revealed;
  const names = namesOf(revealed);
  const unit = (snapshot.sheet.scale.high - snapshot.sheet.scale.low) / 6;
  return {
    roundId: snapshot.roundId,
    revealedAt: snapshot.revealedAt,
    anonymous: revealed.anonymous,
    purposes: reconciliation.purposes.map((purpose) => purposeView(revealed, purpose)),
    slots: reconciliation.slots.map((slot) => ({
      slotId: slot.key,
      chances: slot.chances.map(({ puppy, probability }) => ({ puppy, probability })),
      close: slot.close,
      candidates: slot.candidates.map(({ puppy, probability }) => ({ puppy, probability })),
      filledBy: slot.filledBy,
      sentence: closeCallSentence(slot, names),
      looks: placeLooks(revealed, slot),
    })),
    agenda: agendaLines(revealed),
    criteria: snapshot.sheet.criteria.map(({ key }) => criterionView(revealed, key)),
    ...snapshotCards(snapshot, revealed.holds),
    repeats: repeatDifferences(revealed.panel, repeatsFromSnapshot(snapshot)).map(
      ({ evaluator, puppy, cells, alike, shift, difference }) => ({
        puppy,
        seat: evaluator,
        cells,
        alike,
        shift,
        difference,
      }),
    ),
    evaluators: reconciliation.evaluators.map((evaluator) => ({
      seat: evaluator.evaluator,
      severity: { ...evaluator.severity },
      liking: { ...evaluator.liking },
      noise: { ...evaluator.noise },
      profile: profileView(revealed.profiles.find((one) => one.evaluator === evaluator.evaluator)),
      sentence: severitySentence(evaluator, names[evaluator.evaluator] ?? ''),
    })),
    seatNotes: seatNotes(revealed),
    notLocked: notLocked(revealed),
    lateEntries: revealed.lateEntries,
    looks: { answers: reconciliation.looks.answers },
    lookSettings: { noise: lookSettings.noise * unit, tieHalfWidth: lookSettings.tieHalfWidth * unit },
    second: secondRoundView(revealed),
    secondRoundCells: askAgain(revealed),
    blindTo: blindTo(revealed.first, revealed),
    engineVersion: reconciliation.engineVersion,
  };
}

/** Seats that let a round close without their lock: of either round. */
function notLocked({ first, second }: RevealedResult): string[] {
  const open = [first, ...(second ? [second] : [])].flatMap(({ seats }) =>
    seats.filter((seat) => seat.kind !== 'none' && !seat.locked),
  );
  return [...new Set(open.map((seat) => seat.id))];
}

/** Words for keys: puppies by name, seats by label, or by none. */
function namesOf({ snapshot, anonymous }: RevealedResult): Record<string, string> {
  return Object.fromEntries([
    ...snapshot.puppies.map((puppy) => [puppy.id, puppy.name] as const),
    ...snapshot.seats.map((seat) => [seat.id, anonymous ? 'one seat' : `the ${seat.label}`] as const),
  ]);
}

/** What is worth asking again is what is worth talking about and is one question: what stands on the agenda and no more. */
function askAgain({ second, reconciliation }: RevealedResult): BoardView['secondRoundCells'] {
  if (second) return [];
  return reconciliation.agenda.flatMap(({ flag }) =>
    'criterion' in flag ? [{ puppyId: flag.puppy, criterion: flag.criterion }] : [],
  );
}

function placeLooks(revealed: RevealedResult, slot: SlotResult): BoardView['slots'][number]['looks'] {
  const { used, agreed } = revealed.batches;
  const verdict = lookVerdict(slot, { used: used[slot.key] ?? 0, agreed });
  const names = namesOf(revealed);
  const alone =
    verdict.batches.used > 0 && verdict.candidates.length > 1
      ? looksAloneSentence(looksAlone(verdict.candidates, revealed.looks), names)
      : null;
  return { ...verdict.batches, verdict: verdict.kind, sentence: lookVerdictSentence(verdict, names), unlinked: alone };
}

/** None in an anonymous panel, where each names a seat (BL9). */
function seatNotes(revealed: RevealedResult): string[] {
  if (revealed.anonymous) return [];
  const { identical, reversed, scaleUse } = revealed.questions;
  const names = {
    ...namesOf(revealed),
    ...Object.fromEntries(
      revealed.snapshot.sheet.criteria.map(({ key, name }) => [key, name.slice(0, 1).toLowerCase() + name.slice(1)]),
    ),
  };
  return [
    ...identical.map((pair) => identicalSeatsSentence(pair, names)),
    ...reversed.map((turned) => reversedSentence(turned, names)),
    ...scaleUse.flatMap((one) => scaleUseSentence(one, names) ?? []),
  ];
}

function agendaLines(revealed: RevealedResult): BoardView['agenda'] {
  const { snapshot, panel, reconciliation } = revealed;
  const names = {
    ...namesOf(revealed),
    ...Object.fromEntries(snapshot.slots.map((slot, at) => [slot.id, `place ${at + 1}`])),
    ...Object.fromEntries(
      [...snapshot.sheet.criteria, ...checkCatalogue].map(({ key, name }) => [
        key,
        name.slice(0, 1).toLowerCase() + name.slice(1),
      ]),
    ),
  };
  return reconciliation.agenda.map((item) => ({
    kind: item.flag.kind,
    puppy: 'puppy' in item.flag ? item.flag.puppy : null,
    criterion: 'criterion' in item.flag ? item.flag.criterion : null,
    slotId: item.slot,
    now: item.now,
    settled: item.settled,
    sentence: agendaSentence(item, { panel, names }),
  }));
}

function purposeView(revealed: RevealedResult, result: PurposeResult): BoardView['purposes'][number] {
  const { snapshot, panel, reconciliation } = revealed;
  const names = namesOf(revealed);
  const key: PurposeKey = purposeKeySchema.parse(result.key);
  const weights = snapshot.purposes.find((purpose) => purpose.key === key)?.weights ?? {};
  return {
    key,
    merit: result.merit.map((one) => ({
      puppy: one.puppy,
      estimate: one.estimate,
      sd: one.sd,
      low: one.low,
      high: one.high,
      halfLow: one.halfLow,
      halfHigh: one.halfHigh,
      mean: one.mean,
      ranks: [...one.ranks],
    })),
    better: Object.fromEntries(Object.entries(result.better).map(([puppy, chances]) => [puppy, { ...chances }])),
    level: { ...result.level },
    sentence: meritSentence(result, names),
    meanSentence: plainMeanSentence({
      panel,
      purpose: { key, weights },
      result,
      evaluators: reconciliation.evaluators,
      names,
    }),
  };
}

function profileView(profile: EvaluatorProfile | undefined): BoardView['evaluators'][number]['profile'] {
  const none = { undefined: 'too few data' };
  return {
    scaleUse: profile?.scaleUse ?? none,
    agreement: profile?.agreement ?? none,
    selfConsistency: profile?.selfConsistency ?? none,
    drift: profile?.drift ?? none,
  };
}

function criterionView({ snapshot, panel, bands }: RevealedResult, criterion: string): BoardView['criteria'][number] {
  const puppyOf = new Map(snapshot.showings.filter((one) => !one.repeat).map((one) => [one.id, one.puppyId]));
  const dots = snapshot.answers.flatMap(({ seatId, subject, body }) => {
    const puppy = puppyOf.get(subject);
    if (!puppy || body.kind !== 'score' || body.criterion !== criterion || (body.value === null && !body.cannotJudge))
      return [];
    return [{ puppy, seat: seatId, value: body.value, cannotJudge: body.cannotJudge }];
  });
  return { criterion, ...criterionSpread(panel, criterion), band: bands[criterion] ?? 'too-few', dots };
}

type Rounds = { readonly first: Snapshot; readonly second: Snapshot | null; readonly anonymous: boolean };

/** Before and after a second round, cell by cell; an anonymous panel is told counts, not whose voice it was. Null without one. */
function secondRoundView({ first, second, anonymous }: Rounds): BoardView['second'] {
  if (!second) return null;
  const asked = (second.cells ?? []).map(({ puppyId, criterion }) => ({ puppy: puppyId, criterion }));
  const shift = roundShift(asked, panelFromSnapshot(first), panelFromSnapshot(second).scores);
  const names = Object.fromEntries(first.seats.map((seat) => [seat.id, anonymous ? 'one seat' : `the ${seat.label}`]));
  return {
    revealedAt: second.revealedAt,
    cells: shift.cells.map(({ puppy, criterion, seats, before, after, kind, voice }) => ({
      puppy,
      criterion,
      seats,
      before,
      after,
      kind,
      voice: anonymous ? null : voice,
    })),
    pulls: anonymous ? [] : shift.pulls.map(({ evaluator, pull }) => ({ seat: evaluator, pull: { ...pull } })),
    sentence: roundShiftSentence(shift, names),
  };
}

/**
 * The board of an anonymous panel (BL9): what was said, never by whom, each list in an order of its own content. Reasons
 * and chances of own choices are left out, since words tell their author; a seat still sees its own profile.
 */
function anonymousBoard(board: BoardView, ownSeatId: string | null): BoardView {
  return {
    ...board,
    criteria: board.criteria.map((criterion) => ({ ...criterion, dots: nameless(criterion.dots) })),
    checks: board.checks.map((line) => ({ ...line, answers: nameless(line.answers) })),
    asides: nameless(board.asides),
    notes: nameless(board.notes),
    choices: nameless(board.choices.map((choice) => ({ ...choice, reason: '', chance: null }))),
    repeats: nameless(board.repeats),
    unfair: nameless(board.unfair.map((day) => ({ ...day, why: '' }))),
    evaluators: board.evaluators.filter((line) => line.seat === ownSeatId),
  };
}

function nameless<T extends { readonly seat: string | null }>(lines: readonly T[]): T[] {
  const told = lines.map((line) => ({ ...line, seat: null }));
  return told.toSorted((one, other) => JSON.stringify(one).localeCompare(JSON.stringify(other)));
}
