import type { PuppyFace, SlotView } from '#lib/contract/evaluationView';
import { usualPlan } from '#lib/contract/plan';
import type { Snapshot } from '#lib/contract/snapshot';
import type { EvaluationFacts, RoundFacts, SeatFacts } from '#lib/evaluation/facts';
import { shortSheet } from '#lib/sheet/shippedSheets';

/** A sign or two all through, so that ids are told apart at a glance. */
export const id = (signs: string): string => signs.repeat(32).slice(0, 32);

export const fern: PuppyFace = {
  id: id('a'),
  name: 'Fern',
  sex: 'bitch',
  collar: 'blue',
  secondMark: '',
  withdrawn: false,
};
export const moss: PuppyFace = {
  id: id('b'),
  name: 'Moss',
  sex: 'dog',
  collar: 'green',
  secondMark: 'left ear',
  withdrawn: false,
};
export const sorrel: PuppyFace = {
  id: id('c'),
  name: 'Sorrel',
  sex: 'bitch',
  collar: 'red',
  secondMark: '',
  withdrawn: false,
};

export function seatFacts(change: Partial<SeatFacts>): SeatFacts {
  return {
    id: id('2'),
    label: 'mentor',
    kind: 'hands',
    leads: false,
    picks: false,
    interest: '',
    position: 1,
    owner: false,
    organises: false,
    reads: false,
    joined: true,
    issued: 1,
    lockedAt: null,
    linkWaiting: false,
    paper: false,
    ...change,
  };
}

export const breeder = seatFacts({ id: id('1'), label: 'breeder', position: 0, owner: true, issued: 0 });
export const mentor = seatFacts({});
export const photographer = seatFacts({ id: id('3'), label: 'photographer', kind: 'photographs', position: 2 });
export const coOwner = seatFacts({ id: id('4'), label: 'co-owner', kind: 'live', position: 3, picks: true });
/** Scores nothing and has no right. */
export const tableHand = seatFacts({ id: id('5'), label: 'table hand', kind: 'none', position: 4 });

export const locked = (seat: SeatFacts, lockedAt = 1): SeatFacts => ({ ...seat, lockedAt });

export function slotView(change: Partial<SlotView>): SlotView {
  return {
    id: id('6'),
    taker: 'breeder',
    seatId: breeder.id,
    purpose: 'keep',
    sex: 'any',
    condition: '',
    byWhen: '',
    ifFails: '',
    ...change,
  };
}

/** The first round: Fern, Moss, Sorrel, and Fern once more without a word. */
export function roundFacts(change: Partial<RoundFacts>): RoundFacts {
  return {
    id: id('f'),
    occasion: 'first',
    medium: 'table',
    state: 'open',
    closedAt: null,
    revealedAt: null,
    tableShowingId: null,
    cells: null,
    showings: [
      { id: id('1a'), puppyId: fern.id, place: 0, repeat: false },
      { id: id('1b'), puppyId: moss.id, place: 1, repeat: false },
      { id: id('1c'), puppyId: sorrel.id, place: 2, repeat: false },
      { id: id('2a'), puppyId: fern.id, place: 3, repeat: true },
    ],
    ...change,
  };
}

export type FactsStage = 'preparing' | 'open' | 'closed' | 'revealed' | 'sealed';
export const factsStages: readonly FactsStage[] = ['preparing', 'open', 'closed', 'revealed', 'sealed'];
const phases = {
  preparing: 'preparing',
  open: 'scoring',
  closed: 'scoring',
  revealed: 'deciding',
  sealed: 'sealed',
} as const;

/** An evaluation at the table at one stage of its only round: four seats that score, one that does not, three puppies, two places. */
export function factsAt(stage: FactsStage, change: Partial<EvaluationFacts> = {}): EvaluationFacts {
  return {
    id: id('e'),
    name: 'Eight weeks',
    litter: { id: id('7'), name: 'Autumn', breed: 'Leonberger', whelpedOn: '2026-07-18' },
    sheetId: id('8'),
    sheet: shortSheet,
    heldOn: '2026-09-12',
    medium: 'table',
    callLink: 'https://call.example/autumn',
    callNumber: '01 23',
    tableNote: 'back door',
    phase: phases[stage],
    order: [fern.id, moss.id, sorrel.id],
    puppies: [fern, moss, sorrel],
    seats: [breeder, mentor, photographer, coOwner, tableHand],
    slots: [
      slotView({}),
      slotView({ id: id('9'), taker: 'co-owner', seatId: coOwner.id, purpose: 'working', sex: 'dog' }),
    ],
    purposes: [
      { key: 'keep', weights: { neck: 3 } },
      { key: 'working', weights: { neck: 1 } },
    ],
    plan: usualPlan,
    confirmedSeatIds: [],
    round: stage === 'preparing' ? null : roundFacts({ state: stage === 'sealed' ? 'revealed' : stage }),
    earlierRounds: [],
    openBatchId: null,
    imported: null,
    ...change,
  };
}

/** What the reveal of that round stores. */
export function snapshotOf(change: Partial<Snapshot> = {}): Snapshot {
  const { sheet, puppies, seats, slots, purposes } = factsAt('revealed');
  return {
    evaluationId: id('e'),
    roundId: id('f'),
    medium: 'table',
    revealedAt: 1000,
    sheet,
    puppies: [...puppies],
    slots: [...slots],
    purposes: [...purposes],
    seats: seats.map((seat) => ({
      id: seat.id,
      label: seat.label,
      kind: seat.kind,
      position: seat.position,
      locked: true,
      reissued: false,
      typed: false,
    })),
    showings: [...roundFacts({}).showings],
    cells: null,
    coded: false,
    answers: [],
    ...change,
  };
}
