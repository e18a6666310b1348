import type { BoardView } from '#lib/contract/boardView';
import { counted } from '../_parts/textWords';
import { Sentence } from '../_parts/Sentence';
import { twoDecimals } from '../_parts/figureWords';
import { DataTable } from '../_parts/DataTable';
import { Disclosure } from '../_parts/Disclosure';
import type { Faces } from '../_evaluation/facesOf';
import { momentWords } from '../_parts/timeWords';
import { undefinedWords } from '../_result/undefinedWords';

type Second = NonNullable<BoardView['second']>;
type SecondCell = Second['cells'][number];

/** What the second round changed: each question before and after, and whether views moved together or towards one voice. */
export function SecondResult({ board, faces }: { readonly board: BoardView; readonly faces: Faces }) {
  const { second } = board;
  if (!second) return null;
  return (
    <section aria-labelledby="second-round" className="stack gap-14">
      <h2 id="second-round">The second round</h2>
      <Sentence>{second.sentence}</Sentence>
      <DataTable
        caption="Each question before and after: points from the lowest to the highest seat"
        heads={['Question', 'Before', 'After', 'What happened', 'Scored both times by']}
        rows={second.cells.map((cell) => ({
          key: `${cell.puppy} ${cell.criterion}`,
          head: `${faces.puppyName(cell.puppy)}, ${faces.criterionName(cell.criterion).toLowerCase()}`,
          cells: [
            rangeWords(cell.before),
            rangeWords(cell.after),
            happenedWords(cell, faces),
            counted(cell.seats, 'seat'),
          ],
        }))}
      />
      <p className="small">
        Revealed {momentWords(second.revealedAt)}. The numbers above use the second score where a seat gave one, else
        its first; both stay in the record. Agreement that rose after a talk is not more evidence of itself: if views
        went one way towards one seat, one voice may have won.
      </p>
      {second.pulls.length > 0 ? (
        <Disclosure words="How far the others came to each seat">
          <Pulls pulls={second.pulls} faces={faces} />
        </Disclosure>
      ) : null}
    </section>
  );
}

function Pulls({ pulls, faces }: { readonly pulls: Second['pulls']; readonly faces: Faces }) {
  return (
    <DataTable
      figures
      caption="Of the way to this seat’s first scores, the share the others went; with what 90 of 100 readings hold"
      heads={['Seat', 'Share of the way (1 is all of it)']}
      rows={pulls.map(({ seat, pull }) => ({
        key: seat,
        head: faces.seatLabel(seat),
        cells: [
          'undefined' in pull
            ? undefinedWords(pull.undefined)
            : `${twoDecimals(pull.value)} (${twoDecimals(pull.low)} to ${twoDecimals(pull.high)})`,
        ],
      }))}
    />
  );
}

function rangeWords(range: number | null): string {
  return range === null ? 'fewer than two seats' : range.toFixed(range % 1 === 0 ? 0 : 1);
}

function happenedWords({ kind, voice }: SecondCell, faces: Faces): string {
  switch (kind) {
    case 'together':
      return 'views moved closer, from more than one side';
    case 'oneVoice':
      return voice === null ? 'the others came over to one seat' : `the others came over to ${faces.seatLabel(voice)}`;
    case 'apart':
      return 'further apart than before';
    case 'unchanged':
      return 'as far apart as before';
    case 'tooFew':
      return 'too few seats scored it twice to say';
  }
}
