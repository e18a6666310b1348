'use client';

import { useQuery } from '@tanstack/react-query';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { DataTable } from '../board/DataTable';
import { dayWords } from '../_parts/dayWords';
import { counted } from '../_parts/counted';
import { useTRPC } from '../_data/trpc';
import styles from './Lesson.module.css';

/** The learner over litters; how many there are always stands beside it. */
export function LessonProgress({ evaluation }: { readonly evaluation: EvaluationView }) {
  const trpc = useTRPC();
  const { data } = useQuery(trpc.lesson.progress.queryOptions({ id: evaluation.id }));
  if (!data) return null;
  return (
    <section aria-labelledby="progress" className={styles.part}>
      <h2 id="progress">Over litters</h2>
      <p>{progressWords(data)}</p>
      {data.lessons.length > 1 ? (
        <DataTable
          figures
          caption="How far a single score lay from the mentor’s, on average"
          heads={['Day', 'Points']}
          rows={data.lessons.map(({ heldOn, gap }, at) => ({ key: `${heldOn} ${at}`, head: dayWords(heldOn), cells: [gap.toFixed(2)] }))}
        />
      ) : null}
    </section>
  );
}

type Progress = {
  readonly litters: number;
  readonly mean: { readonly undefined: string } | { readonly value: number; readonly low: number; readonly high: number };
  readonly change: { readonly undefined: string } | { readonly value: number; readonly low: number; readonly high: number };
};

function progressWords({ litters, mean, change }: Progress): string {
  const head = `${counted(litters, 'litter')} so far.`;
  if ('undefined' in mean || 'undefined' in change) return `${head} From three litters on this page says whether the gap closes; before, too few data.`;
  const gap = `A single score lies ${mean.value.toFixed(1)} points from the mentor’s on average (90% interval ${mean.low.toFixed(1)} to ${mean.high.toFixed(1)}).`;
  if (change.high < 0) return `${head} ${gap} From litter to litter the gap closes by ${Math.abs(change.value).toFixed(2)} points (${Math.abs(change.high).toFixed(2)} to ${Math.abs(change.low).toFixed(2)}).`;
  if (change.low > 0) return `${head} ${gap} From litter to litter the gap widens by ${change.value.toFixed(2)} points (${change.low.toFixed(2)} to ${change.high.toFixed(2)}).`;
  return `${head} ${gap} Whether it closes or widens these litters do not tell.`;
}
