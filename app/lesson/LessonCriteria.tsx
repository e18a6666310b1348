import type { LessonView } from '#lib/contract/lesson';
import type { Faces } from '../board/facesOf';
import { DataTable } from '../board/DataTable';
import { signed } from '../board/signed';
import styles from './Lesson.module.css';

type CriteriaProps = { readonly lesson: LessonView; readonly faces: Faces };
type Line = LessonView['criteria'][number];

const width = 320;
const middle = width / 2;

/** Criterion by criterion: how much higher or lower the learner reads, against what chance alone would give. */
export function LessonCriteria({ lesson, faces }: CriteriaProps) {
  const judged = lesson.criteria.filter((line) => line.difference !== null);
  const reach = Math.max(1, ...judged.map(({ difference, expected }) => Math.max(Math.abs(difference ?? 0), expected ?? 0)));
  const scale = (middle - 10) / reach;
  return (
    <section aria-labelledby="criteria" className={styles.part}>
      <h2 id="criteria">Criterion by criterion</h2>
      <p>
        The dot is the learner’s mean score less the mentor’s, once a level of one’s own is taken off; the pale bar is what chance alone would stay within, over all criteria
        together, in 90 of 100 lessons. Left of the middle is lower, right is higher; on a two-sided criterion, towards too little or too much.
      </p>
      <ul className={styles.rows}>
        {judged.map((line) => (
          <li key={line.criterion} className={styles.row}>
            <span>{faces.criterionName(line.criterion)}</span>
            <Difference line={line} scale={scale} label={lineWords(line, faces)} />
          </li>
        ))}
      </ul>
      <DataTable
        figures
        caption="The same as a table, in points"
        heads={['Criterion', 'Puppies', 'Learner less mentor', 'Chance stays within', 'Beyond it']}
        rows={lesson.criteria.map((line) => ({
          key: line.criterion,
          head: faces.criterionName(line.criterion),
          cells: [line.puppies, line.difference === null ? '–' : signed(line.difference), line.expected === null ? '–' : `±${line.expected.toFixed(2)}`, line.beyond ? 'yes' : 'no'],
        }))}
      />
    </section>
  );
}

function Difference({ line, scale, label }: { readonly line: Line; readonly scale: number; readonly label: string }) {
  const [at, band] = [(line.difference ?? 0) * scale, (line.expected ?? 0) * scale];
  return (
    <svg width={width} height={26} viewBox={`0 0 ${width} 26`} role="img" aria-label={label} className={styles.strip}>
      <rect x={middle - band} y={6} width={2 * band} height={14} className={styles.band} />
      <line x1={middle} x2={middle} y1={2} y2={24} className={styles.zero} />
      <circle cx={middle + at} cy={13} r={line.beyond ? 7 : 5} className={line.beyond ? styles.beyond : styles.within} />
    </svg>
  );
}

function lineWords({ criterion, difference, expected, beyond }: Line, faces: Faces): string {
  const within = expected === null ? '' : `, chance stays within ${expected.toFixed(2)}`;
  return `${faces.criterionName(criterion)}: ${signed(difference ?? 0)} points${within}${beyond ? ', beyond it' : ''}.`;
}
