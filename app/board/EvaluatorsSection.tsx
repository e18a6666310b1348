import type { BoardView } from '#lib/contract/boardView';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { SeatShape } from '../_parts/SeatShape';
import type { SectionProps } from './AgreementSection';
import { signed, twoDecimals } from '../_parts/figureWords';
import { DataTable } from '../_parts/DataTable';
import styles from './board.module.css';
import { undefinedWords } from '../_result/undefinedWords';

type Figure = BoardView['evaluators'][number]['profile']['drift'];

/** How each seat used the scale, in the order of the panel: no league table. */
export function EvaluatorsSection({ board, faces }: SectionProps) {
  const evaluation = useEvaluation();
  const lines = evaluation.seats.flatMap((seat) => {
    const line = board.evaluators.find((one) => one.seat === seat.id);
    return line ? [{ seat, line }] : [];
  });
  if (lines.length === 0) return null;
  return (
    <section aria-labelledby="evaluators" className="stack gap-14">
      <h2 id="evaluators">How each seat scored</h2>
      <p className="text">
        A seat that scores lower or higher than the others is no worse for it: merit allows for that. The panel’s level
        is that of its middle seat, which one severe seat does not move. In the order of the panel; one day says little
        about an eye.{board.anonymous ? ' In an anonymous panel a seat sees its own lines alone.' : ''}
      </p>
      <ul className="list stack gap-6">
        {lines.map(({ seat, line }) => (
          <li key={seat.id}>
            <SeatShape position={seat.position} /> {line.sentence}
          </li>
        ))}
      </ul>
      {board.seatNotes.length > 0 ? (
        <ul className="stack points gap-4">
          {board.seatNotes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      ) : null}
      <DataTable
        figures
        caption="In points, with what 90 of 100 readings hold"
        heads={['Seat', 'Level against the panel', 'Liking from puppy to puppy', 'Scatter of a single score']}
        rows={lines.map(({ seat, line }) => ({
          key: seat.id,
          head: faces.seatLabel(seat.id),
          cells: [
            figureWords(line.severity, signed),
            figureWords(line.liking, twoDecimals),
            figureWords(line.noise, twoDecimals),
          ],
        }))}
      />
      <ProfileTable
        lines={lines}
        faces={faces}
        repeated={evaluation.round?.showings.some(({ repeat }) => repeat) === true}
      />
    </section>
  );
}

type ProfileProps = Pick<SectionProps, 'faces'> & {
  readonly lines: readonly {
    readonly seat: { readonly id: string };
    readonly line: BoardView['evaluators'][number];
  }[] /** A puppy was shown twice. */;
  readonly repeated: boolean;
};

/** What one evaluation can tell of a seat's way of scoring; on a small litter that is little, and the table says so. */
function ProfileTable({ lines, faces, repeated }: ProfileProps) {
  const twice = repeated || lines.some(({ line }) => !('undefined' in line.profile.selfConsistency));
  return (
    <DataTable
      figures
      caption="How the scale was used, with what 90 of 100 readings hold"
      heads={[
        'Seat',
        'Spread against the others’ (1 is alike)',
        'Goes with the others (1 is wholly)',
        'Change from puppy to puppy, points',
        ...(twice ? ['Apart from itself on the puppy shown twice, points'] : []),
      ]}
      rows={lines.map(({ seat, line: { profile } }) => ({
        key: seat.id,
        head: faces.seatLabel(seat.id),
        cells: [
          figureWords(profile.scaleUse, twoDecimals),
          figureWords(profile.agreement, twoDecimals),
          figureWords(profile.drift, signed),
          ...(twice ? [figureWords(profile.selfConsistency, twoDecimals)] : []),
        ],
      }))}
    />
  );
}

function figureWords(figure: Figure, words: (value: number) => string) {
  if ('undefined' in figure) return <span className={styles.reason}>{undefinedWords(figure.undefined)}</span>;
  return (
    <>
      {words(figure.value)}{' '}
      <span className={styles.range}>
        ({words(figure.low)} to {words(figure.high)})
      </span>
    </>
  );
}
