import { counted } from '../_parts/counted';
import type { SectionProps } from './AgreementSection';
import styles from './ApartList.module.css';
import { Disclosure } from './Disclosure';
import { scoreWords } from './scoreWords';

/** From this many points between two seats on a cell is named in the list. */
const FAR_APART = 3;

/** Everything else the seats differ on by much: not on the agenda, because settling it could hardly change a pick. */
export function ApartList({ board, faces, evaluation }: SectionProps) {
  const cells = board.criteria.flatMap(({ criterion, dots }) =>
    evaluation.puppies.flatMap((puppy) => {
      const values = dots.flatMap((dot) => (dot.puppy === puppy.id && dot.value !== null ? [dot.value] : []));
      const [low, high] = [Math.min(...values), Math.max(...values)];
      const onAgenda = board.agenda.some((item) => item.criterion === criterion && (item.puppy === puppy.id || item.puppy === null));
      return values.length > 1 && high - low >= FAR_APART && !onAgenda ? [{ criterion, puppy, low, high }] : [];
    }),
  );
  if (cells.length === 0) return null;
  const ordered = cells.toSorted((one, other) => other.high - other.low - (one.high - one.low));
  return (
    <Disclosure words={`Also ${FAR_APART} points or more apart: ${counted(cells.length, 'question')}`}>
      <p className="small">Settling these could hardly change a pick, so they need no talk today.</p>
      <ul className={styles.cells}>
        {ordered.map(({ criterion, puppy, low, high }) => {
          const scale = { twoSided: faces.criterion(criterion)?.twoSided === true };
          const words = (value: number) => scoreWords(scale, { value, cannotJudge: false });
          return (
            <li key={`${puppy.id} ${criterion}`}>
              <b>{puppy.name}</b>, {faces.criterionName(criterion).toLowerCase()}: from {words(low)} to {words(high)}
            </li>
          );
        })}
      </ul>
    </Disclosure>
  );
}
