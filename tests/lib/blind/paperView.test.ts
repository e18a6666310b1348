import { describe, expect, it } from 'vitest';
import { asSeatSees } from '#lib/blind/evaluationView';
import { paperView, withoutPaperSeat } from '#lib/blind/paperView';
import { usualPlan } from '#lib/contract/plan';
import { paperViewSchema } from '#lib/contract/paper';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { askedFields, sheetCodes } from '#lib/evaluation/paper';
import {
  breeder,
  coOwner,
  factsAt,
  factsStages,
  fern,
  id,
  locked,
  mentor,
  moss,
  roundFacts,
  seatFacts,
  sorrel,
  tableHand,
  type FactsStage,
} from '#tests/support/evaluationFacts';

const neighbour = seatFacts({
  id: id('0'),
  label: 'neighbour',
  kind: 'live',
  position: 5,
  paper: true,
  joined: false,
  issued: 0,
});
const seats = [breeder, mentor, coOwner, tableHand, neighbour];
const at = (stage: FactsStage, change: Partial<EvaluationFacts> = {}) => factsAt(stage, { seats, ...change });
const [first] = roundFacts({}).showings;
const typed = [1, 2].map((answers) => ({
  seatId: neighbour.id,
  showingId: first?.id ?? '',
  at: 100 * answers,
  answers,
  body: 'canary',
}));
const beside = { chips: new Map([[fern.id, '1234']]), typed };
const owner = { owner: true, seatId: breeder.id, leads: true };
const labels = (view: ReturnType<typeof paperView>) => view.seats.map((seat) => seat.label);

describe('whose sheets', () => {
  it.each([
    ['the owner: her own and those on paper', owner, ['breeder', 'neighbour']],
    ['an owner without a seat: those on paper', { ...owner, seatId: null }, ['neighbour']],
    ['a seat: its own', { owner: false, seatId: mentor.id, leads: false }, ['mentor']],
    ['one that does not score: none', { owner: false, seatId: tableHand.id, leads: false }, []],
  ])('BL1: %s', (_, viewer, expected) => {
    expect(labels(paperView(at('open'), viewer, beside))).toEqual(expected);
  });

  it.each(factsStages)('BL2: at stage %s sheets exist while a round is open or closed', (stage) => {
    const counts = paperView(at(stage), owner, beside).seats.map((seat) => seat.sheets.length);
    expect(counts).toEqual(stage === 'open' || stage === 'closed' ? [4, 4] : [0, 0]);
  });
});

describe('one sheet', () => {
  const sheetsOf = (facts: EvaluationFacts, viewer = owner) =>
    paperView(facts, viewer, beside).seats.at(-1)?.sheets ?? [];

  it('BL1: has the puppy, its chip, a code, how much it asks, and of what was typed the last time and count alone', () => {
    const facts = at('open');
    expect(sheetsOf(facts)[0]).toEqual({
      showingId: first?.id,
      code: sheetCodes(roundFacts({}), neighbour.id).get(first?.id ?? ''),
      puppy: fern,
      chipDigits: '1234',
      asked: askedFields({ sheet: facts.sheet, cells: null, kind: 'live', puppy: fern }).length,
      typed: { at: 200, answers: 2 },
    });
    expect(sheetsOf(facts).map((sheet) => [sheet.chipDigits, sheet.typed])).toEqual([
      ['1234', { at: 200, answers: 2 }],
      ['', null],
      ['', null],
      ['1234', null],
    ]);
    expect(JSON.stringify(paperView(facts, owner, beside))).not.toContain('canary');
    expect(paperViewSchema.parse(paperView(facts, owner, beside))).toEqual(paperView(facts, owner, beside));
  });

  it('BL1: of what was typed a seat is told nothing, of its own neither', () => {
    const own = { ...beside, typed: [{ seatId: mentor.id, showingId: first?.id ?? '', at: 1, answers: 1 }] };
    const [seat] = paperView(at('open'), { owner: false, seatId: mentor.id, leads: false }, own).seats;
    expect(seat?.sheets.map((sheet) => sheet.typed)).toEqual([null, null, null, null]);
  });

  it('BL2: a withdrawn puppy has none, and a locked seat is told as locked', () => {
    const gone = at('open', {
      puppies: [fern, { ...moss, withdrawn: true }, sorrel],
      seats: [locked(breeder), locked(neighbour)],
    });
    expect(sheetsOf(gone).map((sheet) => sheet.puppy.name)).toEqual(['Fern', 'Sorrel', 'Fern']);
    expect(paperView(gone, owner, beside).seats.map((seat) => [seat.onPaper, seat.locked])).toEqual([
      [false, true],
      [true, true],
    ]);
    expect(paperView(at('open'), owner, beside).seats.map((seat) => seat.locked)).toEqual([false, false]);
  });

  it('BL9: from photographs by code it bears what that seat’s own device would show, in its order, without a chip, to the owner too', () => {
    const coded = at('open', {
      medium: 'photographs',
      plan: { ...usualPlan, identity: 'coded' },
      round: roundFacts({ medium: 'photographs' }),
    });
    const sheets = sheetsOf(coded);
    const seen = asSeatSees(coded, neighbour);
    expect(sheets.map((sheet) => sheet.showingId)).toEqual(seen.round?.showings.map((showing) => showing.id));
    for (const { puppy, chipDigits } of sheets) {
      expect(puppy).toEqual(seen.puppies.find((one) => one.id === puppy.id));
      expect([puppy.name.slice(0, 6), puppy.collar, puppy.secondMark, chipDigits]).toEqual(['Puppy ', 'none', '', '']);
    }
    expect(asSeatSees(coded, breeder).coded).toBe(false);
  });
});

it('BL9: the record’s lines about paper name nobody in an anonymous panel; all others stay', () => {
  const typedHash = `[typed ${'a'.repeat(64)}]`;
  expect(withoutPaperSeat({ kind: 'card-typed', detail: `neighbour, sheet K12 ${typedHash}` }).detail).toBe(
    `a seat ${typedHash}`,
  );
  expect(withoutPaperSeat({ kind: 'paper-locked', detail: 'neighbour, signed 11.40' }).detail).toBe('a seat');
  expect(withoutPaperSeat({ kind: 'seat-changed', detail: 'neighbour' }).detail).toBe('neighbour');
});
