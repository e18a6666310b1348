import type { BoardView } from '#lib/contract/boardView';
import type { PurposeKey } from '#lib/contract/setup';
import type { AgreementBand } from '#lib/reconcile/agreement/agreementBand';
import { readings } from '#lib/reconcile/sentences/readings';
import type { Faces } from '../_evaluation/facesOf';
import { DataTable } from '../_parts/DataTable';
import { signed } from '../_parts/figureWords';

/** One purpose's order. */
export type PurposeResult = BoardView['purposes'][number];
/** One criterion over the litter. */
export type CriterionResult = BoardView['criteria'][number];

type MeritTablesProps = { readonly result: PurposeResult; readonly board: BoardView; readonly faces: Faces };

/** All that the merit picture shows, in figures, and the chances of every rank and every place. */
export function MeritTables({ result, board, faces }: MeritTablesProps) {
  const slots = board.slots.filter(({ slotId }) => faces.slot(slotId)?.purpose === result.key);
  const name = (id: string) => faces.puppyName(id);
  return (
    <>
      <DataTable
        figures
        caption="Merit, in points from the litter mean"
        heads={['Puppy', 'Estimate', '90 of 100 readings', 'Half of the readings', 'Plain mean']}
        rows={result.merit.map((one) => ({
          key: one.puppy,
          head: name(one.puppy),
          cells: [
            signed(one.estimate),
            `${signed(one.low)} to ${signed(one.high)}`,
            `${signed(one.halfLow)} to ${signed(one.halfHigh)}`,
            one.mean === null ? 'not judged' : signed(one.mean),
          ],
        }))}
      />
      <RankTable caption="Chance of each rank" merit={result.merit} faces={faces} />
      {slots.length > 0 ? (
        <DataTable
          figures
          caption="Chance of being the best for each place in the pick order, in readings of 100"
          heads={['Puppy', ...slots.map(({ slotId }) => `Place ${faces.place(slotId)}`)]}
          rows={result.merit.map(({ puppy }) => ({
            key: puppy,
            head: name(puppy),
            cells: slots.map(({ chances }) => {
              const found = chances.find((chance) => chance.puppy === puppy);
              return found ? tableReadings(found.probability) : 'not for this place';
            }),
          }))}
        />
      ) : null}
      <p className="small">
        “&lt;1” is fewer than 1 of 100, “≥99” at least 99 of 100. Earlier places count as filled by their pick, or by
        their most probable puppy while they are open.
      </p>
    </>
  );
}

type RankTableProps = { readonly caption: string; readonly merit: PurposeResult['merit']; readonly faces: Faces };

/** How often each puppy comes first, second and so on, in readings of 100. */
export function RankTable({ caption, merit, faces }: RankTableProps) {
  return (
    <DataTable
      figures
      caption={`${caption}, in readings of 100`}
      heads={['Puppy', ...merit.map((_, at) => `${at + 1}`)]}
      rows={merit.map((one) => ({
        key: one.puppy,
        head: faces.puppyName(one.puppy),
        cells: one.ranks.map(tableReadings),
      }))}
    />
  );
}

const short: Readonly<Record<string, string>> = { 'fewer than 1': '<1', 'at least 99': '≥99' };

/** A chance for a table of readings of 100: "61", "<1", "≥99"; never 0 and never 100. */
function tableReadings(chance: number): string {
  const words = readings(chance);
  return short[words] ?? words;
}

/** Spread, share within one point and the band of every criterion. */
export function AgreementTable({ board, faces }: { readonly board: BoardView; readonly faces: Faces }) {
  return (
    <DataTable
      figures
      caption="Agreement by criterion"
      heads={['Criterion', 'Lowest to highest, points', 'Pairs within one point', 'Seats', 'Agreement']}
      rows={board.criteria.map(({ criterion, spread, withinOne, seats, band }) => ({
        key: criterion,
        head: faces.criterionName(criterion),
        cells: [
          spread === null ? 'no two scores' : spread.toFixed(1),
          withinOne === null ? 'no two scores' : pairsWithinOne(withinOne),
          seats,
          bandWords[band],
        ],
      }))}
    />
  );
}

/** How far the panel agrees on a criterion, decided on an interval, in a word. */
export const bandWords: Readonly<Record<AgreementBand, string>> = {
  low: 'low',
  medium: 'medium',
  high: 'high',
  'too-few': 'too few data',
};

/** How far the seats lie apart on a criterion, in points; says so when no puppy has two scores. */
export function spreadWords({ spread }: CriterionResult): string {
  return spread === null ? 'No puppy has two scores here.' : `${spread.toFixed(1)} points apart`;
}

const order: readonly PurposeKey[] = ['keep', 'working', 'companion'];

/** Results by purpose in a fixed order, so that a page does not change its tabs from one evaluation to the next. */
export function byPurpose<Result extends { readonly key: PurposeKey }>(results: readonly Result[]): Result[] {
  return order.flatMap((key) => results.filter((result) => result.key === key));
}

/** A share of pairs of scores in words: "67 of 100 pairs". None and all are said as such, and only then. */
export function pairsWithinOne(share: number): string {
  if (share === 0) return 'no pair';
  if (share === 1) return 'all pairs';
  return `${Math.min(99, Math.max(1, Math.round(share * 100)))} of 100 pairs`;
}
