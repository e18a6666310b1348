import type { RowFate } from '#lib/contract/importView';
import type { RouterOutputs } from '../_data/trpc';
import { counted } from '../_parts/textWords';
import styles from './import.module.css';

type Preview = RouterOutputs['card']['previewImport'];

/** Every row with its fate in words; rows that stop the rest come first. */
export function ImportPreview({ preview: { rows, sound } }: { readonly preview: Preview }) {
  const stopping = rows.filter((row) => !fateWords[row.fate].passes);
  const ordered = [...stopping, ...rows.filter((row) => fateWords[row.fate].passes)];
  const shown = ordered.slice(0, mostShown);
  return (
    <div className={`stack upright gap-16 ${styles.part}`}>
      <p role="status" className="lead">
        {sound
          ? `${counted(rows.length, 'row')} read. Nothing is written yet.`
          : `${counted(stopping.length, 'row')} of ${rows.length} cannot be taken, so none is. Put ${stopping.length === 1 ? 'it' : 'them'} right and look again.`}
      </p>
      <div className={styles.scroll} role="region" aria-label="Rows and what would become of them" tabIndex={0}>
        <table className={styles.table}>
          <thead>
            <tr>
              <th scope="col">Line</th>
              <th scope="col">Puppy</th>
              <th scope="col">Criterion</th>
              <th scope="col">Score</th>
              <th scope="col">What would become of it</th>
            </tr>
          </thead>
          <tbody>
            {shown.map((row) => (
              <tr key={row.line} data-stops={!fateWords[row.fate].passes}>
                <td>{row.line}</td>
                <td>{row.puppy}</td>
                <td>{row.criterion}</td>
                <td>{row.score ?? 'blank'}</td>
                <td>
                  {fateWords[row.fate].passes ? '' : 'stops all: '}
                  {fateWords[row.fate].words}
                  {row.fate === 'another-seat' ? ` (${row.evaluator})` : ''}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </div>
      {shown.length < ordered.length ? (
        <p className="small">
          Shown are the first {shown.length} of {ordered.length}, those that stop the rest before all others.
        </p>
      ) : null}
    </div>
  );
}

/** A page of ten thousand lines is read by nobody, and a phone would not draw it. */
const mostShown = 500;

type Fate = { readonly words: string; readonly passes: boolean };

/** What would become of a row. One row that cannot pass stops them all. */
const fateWords: Readonly<Record<RowFate, Fate>> = {
  new: { words: 'will be written', passes: true },
  replaces: { words: 'will replace the score you gave before', passes: true },
  same: { words: 'is there already, nothing to do', passes: true },
  blank: { words: 'left blank, nothing to do', passes: true },
  'unknown-puppy': { words: 'no puppy of that name is shown in this round', passes: false },
  'unknown-criterion': { words: 'the sheet has no such criterion', passes: false },
  'another-seat': { words: 'belongs to another evaluator: only your own scores can be brought in', passes: false },
  'hands-only': { words: 'by hand only, and your seat does not touch', passes: false },
  withdrawn: { words: 'the puppy was withdrawn', passes: false },
  twice: { words: 'the same puppy and criterion stand on a line above, written otherwise', passes: false },
  'off-step': { words: 'between two steps: only whole steps can be scored', passes: false },
};
