import type { EntryBody } from '../contract/entry';
import type { Cell } from '../contract/plan';
import type { SeatInput } from '../contract/setup';
import type { DomainErrorCode } from '../errors';
import { checkCatalogue } from '../sheet/checkCatalogue';
import type { Sheet } from '../sheet/sheet';
import { createSeededRandom, seedFromNumbers } from '../stats/seededRandom';
import { entryField } from './entries';
import type { EvaluationFacts, RoundFacts, SeatFacts, Viewer } from './facts';
import { saysSomething } from './ownAnswers';
import { ownCardOpen } from './rounds';

type Verdict = DomainErrorCode | null;

/**
 * Whether a seat may be marked as answering on paper: before the first round, one that scores, that nobody has joined, and
 * that is not the owner's own. A lesson compares two people who see their own cards, so it has none.
 */
export function decidePaperSeat(
  { phase, plan }: EvaluationFacts,
  standing: SeatFacts | null,
  { kind, leads }: Pick<SeatInput, 'kind' | 'leads'>,
): Verdict {
  if (phase !== 'preparing') return 'wrong-phase';
  if (standing !== null && (standing.owner || standing.issued > 0)) return 'in-use';
  return kind === 'none' || leads || plan.kind === 'lesson' ? 'bad-input' : null;
}

/**
 * BL1's one exception: the owner types what a seat marked on paper has filled in, and so sees it. Only while its round is open and
 * the seat not locked, and only once she can say nothing of her own any more: her own card is locked, or she has none.
 */
export function decidePaper(facts: EvaluationFacts, viewer: Pick<Viewer, 'owner'>, seatId: string): Verdict {
  if (!viewer.owner) return 'not-allowed';
  const seat = facts.seats.find((one) => one.id === seatId);
  if (!seat) return 'not-found';
  if (!seat.paper) return 'not-allowed';
  if (facts.round?.state !== 'open' || seat.lockedAt !== null) return 'wrong-phase';
  return ownCardOpen(facts) ? 'own-card-open' : null;
}

/** A paper seat's cards are locked once every one of them is typed. `typed` holds their showings. */
export function decidePaperLock(
  facts: EvaluationFacts,
  viewer: Pick<Viewer, 'owner'>,
  { seatId, typed }: { readonly seatId: string; readonly typed: ReadonlySet<string> },
): Verdict {
  const verdict = decidePaper(facts, viewer, seatId);
  if (verdict !== null || !facts.round) return verdict;
  return sheetShowings(facts.puppies, facts.round.showings).every(({ id }) => typed.has(id)) ? null : 'still-open';
}

/** Whether these answers are one card: each question once, at least one answered, and nothing that is asked elsewhere. What each says is checked as every entry is. */
export function decideCard(bodies: readonly EntryBody[]): Verdict {
  const fields = bodies.map(entryField);
  const once = new Set(fields).size === fields.length;
  return once && bodies.every(({ kind }) => kind !== 'choice') && bodies.some(saysSomething) ? null : 'bad-input';
}

/** The showings that have a sheet: of puppies that have not been withdrawn. */
export function sheetShowings<Shown extends { readonly puppyId: string }>(
  puppies: EvaluationFacts['puppies'],
  showings: readonly Shown[],
): readonly Shown[] {
  return showings.filter(({ puppyId }) => puppies.some((puppy) => puppy.id === puppyId && !puppy.withdrawn));
}

type Asked = {
  readonly sheet: Sheet;
  readonly cells: readonly Cell[] | null;
  readonly kind: SeatFacts['kind'];
  readonly puppy: Pick<EvaluationFacts['puppies'][number], 'id' | 'sex'>;
};

/** The fields a seat is asked about a puppy; what may be said besides (a second stance, manner, a note) is not counted. */
export function askedFields({ sheet, cells, kind, puppy }: Asked): readonly string[] {
  const mine = ({ handsOnly }: { readonly handsOnly: boolean }) => kind === 'hands' || !handsOnly;
  const criteria = sheet.criteria
    .filter(mine)
    .filter(({ key }) => cells === null || cells.some((cell) => cell.puppyId === puppy.id && cell.criterion === key));
  const scores = criteria.map(({ key }) => `score:${key}`);
  if (cells !== null) return scores;
  const checks = checkCatalogue.filter(
    (check) =>
      sheet.checks.includes(check.key) && mine(check) && (check.onlyIn === undefined || check.onlyIn === puppy.sex),
  );
  return [...scores, ...checks.map(({ key }) => `check:${key}`), 'overall'];
}

/** How many of the asked fields these answers answer; "not seen" is an answer. */
export function countAnswers(asked: readonly string[], bodies: readonly EntryBody[]): number {
  return bodies.filter((body) => saysSomething(body) && asked.includes(entryField(body))).length;
}

const letters = 'ABCDEFGHJKMNPQRSTVWXYZ';

/**
 * A short code for each of a seat's sheets of a round, by showing: a letter and two digits, drawn for this seat and round, so that a sheet of
 * another seat or round is hardly ever taken for this one's. It holds nothing of the order.
 */
export function sheetCodes(
  { id, showings }: Pick<RoundFacts, 'id' | 'showings'>,
  seatId: string,
): ReadonlyMap<string, string> {
  const random = createSeededRandom(seedFromNumbers([...`${id}${seatId}`].map((digit) => digit.charCodeAt(0))));
  const taken = new Set<string>();
  const draw = (): string => {
    const code = `${letters.charAt(Math.floor(random.uniform() * letters.length))}${String(Math.floor(random.uniform() * 100)).padStart(2, '0')}`;
    return taken.has(code) ? draw() : code;
  };
  return new Map(
    showings
      .map((showing) => showing.id)
      .toSorted()
      .map((showingId) => {
        const code = draw();
        taken.add(code);
        return [showingId, code];
      }),
  );
}
