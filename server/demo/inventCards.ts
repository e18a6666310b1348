import type { DemoRole } from '#lib/contract/demoView';
import type { EntryBody } from '#lib/contract/entry';
import type { CheckKey } from '#lib/sheet/check';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import type { Criterion } from '#lib/sheet/criterion';
import type { Sheet } from '#lib/sheet/sheet';
import { fullSheet } from '#lib/sheet/shippedSheets';
import { createSeededRandom, type SeededRandom, seedFromNumbers } from '#lib/stats/seededRandom';
import type { Scenario, ScenarioDay, ScenarioSeat } from './scenario';

/** What one seat says of each puppy, by the puppy's name, in the order it would enter it. */
export type InventedCards = ReadonlyMap<string, readonly EntryBody[]>;

type Puppy = Scenario['puppies'][number];
type Asked = { readonly scenario: Scenario; readonly day: ScenarioDay; readonly sheet: Sheet };
type Hand = Asked & {
  readonly seat: ScenarioSeat;
  readonly puppy: Puppy;
  readonly random: SeededRandom;
  readonly truth: Truth;
};
/** A puppy's own departure on one criterion, in units of its spread; the same at every age. */
type Truth = (puppy: string, criterion: string) => number;

/** Draws every seat's cards of one evaluation from the scenario's true merits: the same scenario, the same cards. */
export function inventCards(asked: Asked): ReadonlyMap<DemoRole, InventedCards> {
  const truth = drawTruth(asked.scenario);
  return new Map(asked.scenario.seats.map((seat, place) => [seat.role, cardsOf(asked, { seat, place, truth })]));
}

function cardsOf(
  asked: Asked,
  { seat, place, truth }: { readonly seat: ScenarioSeat; readonly place: number; readonly truth: Truth },
): InventedCards {
  const { scenario, day } = asked;
  const random = createSeededRandom(seedFromNumbers([scenario.seed, day.seed, place]));
  const missed = new Set(day.missed[seat.role] ?? []);
  const cards = scenario.puppies.map((puppy) => [puppy.name, card({ ...asked, seat, puppy, random, truth })] as const);
  return new Map(cards.filter(([name]) => !missed.has(name)));
}

function card(hand: Hand): EntryBody[] {
  const { day, seat, puppy } = hand;
  const mine = (one: { readonly role: DemoRole; readonly puppy: string }) =>
    one.role === seat.role && one.puppy === puppy.name;
  return [
    ...(seat.kind === 'hands' ? [{ kind: 'manner', manner: day.manners[puppy.name] ?? 'relaxed' } as const] : []),
    ...scores(hand),
    ...day.notes.filter(mine).map(({ criterion, text }) => ({ kind: 'note', criterion, text }) as const),
    ...hand.sheet.checks.flatMap((check) => checkAnswer(hand, check)),
    ...day.unfair.filter(mine).map(({ why }) => ({ kind: 'fair', fair: false, why }) as const),
    {
      kind: 'overall',
      cannotJudge: false,
      value: step(hand, 4.2 + puppy.merit + heard(hand) + 0.5 * hand.random.normal()),
    },
  ];
}

function scores(hand: Hand): EntryBody[] {
  return hand.sheet.criteria
    .filter((criterion) => hand.seat.kind === 'hands' || !criterion.handsOnly)
    .map((criterion) => {
      const drawn = graded(hand, criterion);
      const cannotJudge = hand.seat.cannotJudge.includes(criterion.key);
      return { kind: 'score', criterion: criterion.key, cannotJudge, value: cannotJudge ? null : drawn };
    });
}

/** One-sided: merit plus what is this puppy's own, heard through the seat. Two-sided: the better the puppy, the nearer to 0. */
function graded(hand: Hand, { key, twoSided }: Criterion): number {
  const { puppy, seat, random, truth } = hand;
  const own = truth(puppy.name, key);
  if (!twoSided) return step(hand, 4.2 + puppy.merit + 0.5 * own + heard(hand) + seat.noise * random.normal());
  const spread = Math.max(0.25, 0.95 - 0.45 * puppy.merit);
  const degree = Math.round(spread * own + seat.lean + 0.55 * seat.noise * random.normal());
  return Math.min(3, Math.max(-3, degree)) + 0;
}

const heard = ({ seat, puppy }: Hand) => seat.severity + (seat.liking[puppy.name] ?? 0);

const step = ({ sheet: { scale } }: Hand, value: number) =>
  Math.min(scale.high, Math.max(scale.low, Math.round(value)));

/** What the scenario says, else the plain normal answer; a seat that cannot touch is not asked what needs a hand. */
function checkAnswer({ day, seat, puppy }: Hand, key: CheckKey): EntryBody[] {
  const check = checkByKey(key);
  if (!check || (check.handsOnly && seat.kind !== 'hands')) return [];
  const told = day.checks.find((one) => one.role === seat.role && one.puppy === puppy.name && one.check === key);
  if (told) return [{ kind: 'check', check: key, answer: told.answer, detail: told.detail }];
  const bitch = key === 'testicles' && puppy.sex === 'bitch';
  const outcome = bitch ? 'does-not-apply' : seat.kind === 'photographs' ? 'not-examined' : 'normal';
  const answer = check.answers.find((one) => one.outcome === outcome);
  return answer ? [{ kind: 'check', check: key, answer: answer.key, detail: '' }] : [];
}

function drawTruth(scenario: Scenario): Truth {
  const random = createSeededRandom(seedFromNumbers([scenario.seed]));
  const drawn = new Map(
    scenario.puppies.map(({ name }) => [name, new Map(fullSheet.criteria.map(({ key }) => [key, random.normal()]))]),
  );
  return (puppy, criterion) => drawn.get(puppy)?.get(criterion) ?? 0;
}

type LookPreference = { readonly choice: 'first' | 'second' | 'tie'; readonly criterion: string | null };
type Pair = { readonly first: string; readonly second: string };

/** How a scripted seat answers a second look: by its own cards of the two, naming the criterion that parts them most. */
export function lookPreference(cards: InventedCards, sheet: Sheet, { first, second }: Pair): LookPreference {
  const ours = qualities(cards, sheet, first);
  const others = qualities(cards, sheet, second);
  const gaps = [...ours].flatMap(([criterion, quality]) => {
    const other = others.get(criterion);
    return other === undefined ? [] : [{ criterion, gap: quality - other }];
  });
  const total = gaps.reduce((sum, { gap }) => sum + gap, 0);
  if (Math.abs(total) < 1) return { choice: 'tie', criterion: null };
  const deciding = gaps.toSorted((a, b) => Math.sign(total) * (b.gap - a.gap))[0];
  return { choice: total > 0 ? 'first' : 'second', criterion: deciding?.criterion ?? null };
}

/** In points, more is better: a two-sided score counts by how near it lies to "as asked". */
function qualities(cards: InventedCards, { criteria }: Sheet, name: string): ReadonlyMap<string, number> {
  const twoSided = new Set(criteria.filter((criterion) => criterion.twoSided).map(({ key }) => key));
  return new Map(
    (cards.get(name) ?? []).flatMap((body) => {
      if (body.kind !== 'score' || body.value === null) return [];
      return [[body.criterion, twoSided.has(body.criterion) ? -2 * Math.abs(body.value) : body.value] as const];
    }),
  );
}
