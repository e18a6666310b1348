import type { BoardView } from '#lib/contract/boardView';
import { SeatShape } from '../_parts/SeatShape';
import type { SectionProps } from './AgreementSection';
import { DataTable } from './DataTable';
import styles from './EvaluatorsSection.module.css';
import { signed } from './signed';
import { undefinedWords } from './undefinedWords';

type Figure = BoardView['evaluators'][number]['severity'];

/** How each seat used the scale, in the order of the panel: no league table. */
export function EvaluatorsSection({ evaluation, board, faces }: SectionProps) {
  const lines = evaluation.seats.flatMap((seat) => {
    const line = board.evaluators.find((one) => one.seat === seat.id);
    return line ? [{ seat, line }] : [];
  });
  if (lines.length === 0) return null;
  return (
    <section aria-labelledby="evaluators" className={styles.section}>
      <h2 id="evaluators">How each seat scored</h2>
      <p className={styles.intro}>
        A seat that scores lower or higher than the others is no worse for it: merit allows for that. In the order of the panel; one day says little
        about an eye.
      </p>
      <ul className={styles.sentences}>
        {lines.map(({ seat, line }) => (
          <li key={seat.id}>
            <SeatShape position={seat.position} /> {line.sentence}
          </li>
        ))}
      </ul>
      <DataTable
        figures
        caption="In points, with what 90 of 100 readings hold"
        heads={['Seat', 'Level against the panel', 'Liking from puppy to puppy', 'Scatter of a single score']}
        rows={lines.map(({ seat, line }) => ({
          key: seat.id,
          head: faces.seatLabel(seat.id),
          cells: [
            figureWords(line.severity, signed),
            figureWords(line.liking, (value) => value.toFixed(2)),
            figureWords(line.noise, (value) => value.toFixed(2)),
          ],
        }))}
      />
    </section>
  );
}

function figureWords(figure: Figure, words: (value: number) => string) {
  if ('undefined' in figure) return <span className={styles.reason}>{undefinedWords(figure.undefined)}</span>;
  return `${words(figure.value)} (${words(figure.low)} to ${words(figure.high)})`;
}
