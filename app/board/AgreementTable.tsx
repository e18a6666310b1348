import type { BoardView } from '#lib/contract/boardView';
import { bandWords } from './bandWords';
import { DataTable } from './DataTable';
import type { Faces } from './facesOf';
import { pairsWithinOne } from './pairsWithinOne';

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
