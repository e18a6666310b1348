import Link from 'next/link';
import type { RouterOutputs } from './_parts/routerOutputs';
import { dayWords } from './_parts/dayWords';
import { EmptyState } from './_parts/EmptyState';
import { phaseWords } from './_parts/phaseWords';
import styles from './Home.module.css';

type Line = RouterOutputs['evaluation']['list'][number];

/** Each evaluation, with the page that its phase calls for. */
export function HomeEvaluations({ evaluations }: { readonly evaluations: readonly Line[] }) {
  return (
    <section className={styles.part}>
      <h2>Evaluations</h2>
      {evaluations.length === 0 ? (
        <EmptyState title="No evaluation yet">
          <p>An evaluation is one occasion of a litter at one age. Start it from the litter’s page.</p>
        </EmptyState>
      ) : (
        <ul className={styles.list}>
          {evaluations.map((one) => (
            <li key={one.id} className={styles.row}>
              <Link href={pageOf(one)} className={styles.name}>
                {one.name}
              </Link>
              <span className="small figures">
                {one.litterName} · {dayWords(one.heldOn)} · {phaseWords[one.phase]}
              </span>
              {one.phase === 'preparing' ? null : (
                <Link href={`/setup?id=${one.id}`} className={styles.side}>
                  Set-up<span className="aloud"> of {one.name}</span>
                </Link>
              )}
            </li>
          ))}
        </ul>
      )}
    </section>
  );
}

function pageOf({ id, phase }: Line): string {
  if (phase === 'preparing') return `/setup?id=${id}`;
  return phase === 'scoring' ? `/score?id=${id}` : `/board?id=${id}`;
}
