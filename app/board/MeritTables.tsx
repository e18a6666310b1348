import type { BoardView } from '#lib/contract/boardView';
import { DataTable } from './DataTable';
import { RankTable } from './RankTable';
import type { Faces } from './facesOf';
import type { PurposeResult } from './MeritSection';
import { signed } from './signed';
import { tableReadings } from './tableReadings';

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
      <p className="small">“&lt;1” is fewer than 1 of 100, “≥99” at least 99 of 100. Earlier places count as filled by their pick, or by their most probable puppy while they are open.</p>
    </>
  );
}
