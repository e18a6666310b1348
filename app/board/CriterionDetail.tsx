import { CountsTable } from './CountsTable';
import styles from './CriterionDetail.module.css';
import type { CriterionProps } from './CriterionRow';
import { DataTable } from './DataTable';
import { Disclosure } from './Disclosure';
import { pairsWithinOne } from './pairsWithinOne';
import { PuppyStrip } from './PuppyStrip';
import { scoreWords } from './scoreWords';
import { stripScale } from './stripScale';

/** One criterion over the whole litter: a small strip for every puppy, and the table of puppies and seats. */
export function CriterionDetail({ criterion, result, evaluation, faces }: CriterionProps) {
  const seats = evaluation.seats.filter((seat) => result.dots.some((dot) => dot.seat === seat.id));
  const puppies = evaluation.puppies.filter((puppy) => result.dots.some((dot) => dot.puppy === puppy.id));
  const room = Math.max(1, ...puppies.map((puppy) => mostAlike(result.dots.filter((dot) => dot.puppy === puppy.id))));
  return (
    <div className={styles.detail}>
      <p className="small figures">
        {result.withinOne === null ? '' : `Of the scores two seats gave one puppy, ${pairsWithinOne(result.withinOne)} lie within one point. `}
        {criterion.steadiness.note}
      </p>
      <ul className={styles.strips}>
        {puppies.map((puppy) => (
          <li key={puppy.id}>
            <b>{puppy.name}</b>
            <PuppyStrip criterion={criterion} result={result} puppyId={puppy.id} sheet={evaluation.sheet} faces={faces} width={240} room={room} />
          </li>
        ))}
      </ul>
      <Disclosure words="The same as a table">
        {result.dots.some(({ seat }) => seat === null) ? (
          <CountsTable caption={`${criterion.name}: seats by score`} puppies={puppies} answers={result.dots} scale={stripScale(criterion, evaluation.sheet)} />
        ) : (
        <DataTable
          figures
          caption={`${criterion.name}: scores by seat`}
          heads={['Puppy', ...seats.map((seat) => seat.label)]}
          rows={puppies.map((puppy) => ({
            key: puppy.id,
            head: puppy.name,
            cells: seats.map((seat) => scoreWords(criterion, result.dots.find((dot) => dot.puppy === puppy.id && dot.seat === seat.id))),
          }))}
        />
        )}
      </Disclosure>
    </div>
  );
}

/** How many seats gave the commonest score. */
function mostAlike(dots: readonly { readonly value: number | null }[]): number {
  return Math.max(0, ...dots.map(({ value }) => (value === null ? 0 : dots.filter((dot) => dot.value === value).length)));
}
