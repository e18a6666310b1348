'use client';

import { useQuery } from '@tanstack/react-query';
import type { LessonView } from '#lib/contract/lesson';
import { useTRPC } from '../_data/trpc';
import { EvaluationFrame } from '../_evaluation/EvaluationFrame';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { type Faces, facesOf } from '../_evaluation/facesOf';
import { CautionNote } from '../_parts/CautionNote';
import { DataTable } from '../_parts/DataTable';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { Sentence } from '../_parts/Sentence';
import { signed } from '../_parts/figureWords';
import { counted } from '../_parts/textWords';
import { dayWords } from '../_parts/timeWords';
import styles from './lesson.module.css';

/** A learner's card beside the mentor's, for the two of them: closed until the mentor has locked. */
export function LessonScreen() {
  return (
    <EvaluationFrame here="lesson" beforeReveal={<NotYet />}>
      <Lesson />
    </EvaluationFrame>
  );
}

function NotYet() {
  return (
    <EmptyState title="The lesson opens with the mentor’s lock">
      <p>The learner locks first, then the mentor. Until then neither sees the other’s card.</p>
    </EmptyState>
  );
}

function Lesson() {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const { data: lesson, error } = useQuery(trpc.lesson.get.queryOptions({ id: evaluation.id }));
  if (!lesson) return error === null ? <Loading what="the lesson" /> : <Refusal error={error} />;
  const faces = facesOf(evaluation);
  return (
    <div className="stack text gap-36">
      <section aria-labelledby="parted" className="stack gap-12">
        <h2 id="parted">
          The {faces.seatLabel(lesson.learner)}’s card beside the {faces.seatLabel(lesson.mentor)}’s
        </h2>
        {lesson.sentences.map((sentence) => (
          <Sentence key={sentence}>{sentence}</Sentence>
        ))}
      </section>
      <Picks lesson={lesson} />
      <NextTime lesson={lesson} faces={faces} />
      <LessonCriteria lesson={lesson} faces={faces} />
      <LessonProgress />
      <CautionNote caution="early-days" />
    </div>
  );
}

function Picks({ lesson }: { readonly lesson: LessonView }) {
  if (lesson.picks.length === 0) return null;
  return (
    <section aria-labelledby="picks" className="stack gap-12">
      <h2 id="picks">Picks</h2>
      <ul className={`stack gap-10 ${styles.lines}`}>
        {lesson.picks.map(({ slotId, sentence }) => (
          <li key={slotId}>{sentence}</li>
        ))}
      </ul>
    </section>
  );
}

/** What to look at next time: the sheet's own words on those criteria. */
function NextTime({ lesson, faces }: { readonly lesson: LessonView; readonly faces: Faces }) {
  return (
    <section aria-labelledby="next-time" className="stack gap-12">
      <h2 id="next-time">Next time, look at</h2>
      {lesson.lookAt.length === 0 ? <p>Nothing stands out. Score the next litter the same way.</p> : null}
      {lesson.lookAt.map((key) => {
        const criterion = faces.criterion(key);
        if (!criterion) return null;
        return (
          <article key={key} className="slip stack gap-6">
            <h3>{criterion.name}</h3>
            <p>{criterion.why}</p>
            <p>{criterion.twoSided ? `As asked: ${criterion.anchors.asked}` : `High: ${criterion.anchors.high}`}</p>
            <p className="small">{criterion.steadiness.note}</p>
          </article>
        );
      })}
    </section>
  );
}

/** The learner over litters; how many there are always stands beside it. */
function LessonProgress() {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const { data } = useQuery(trpc.lesson.progress.queryOptions({ id: evaluation.id }));
  if (!data) return null;
  return (
    <section aria-labelledby="progress" className="stack gap-12">
      <h2 id="progress">Over litters</h2>
      <p>{progressWords(data)}</p>
      {data.lessons.length > 1 ? (
        <DataTable
          figures
          caption="How far a single score lay from the mentor’s, on average"
          heads={['Day', 'Points']}
          rows={data.lessons.map(({ heldOn, gap }, at) => ({
            key: `${heldOn} ${at}`,
            head: dayWords(heldOn),
            cells: [gap.toFixed(2)],
          }))}
        />
      ) : null}
    </section>
  );
}

type Progress = {
  readonly litters: number;
  readonly mean:
    | { readonly undefined: string }
    | { readonly value: number; readonly low: number; readonly high: number };
  readonly change:
    | { readonly undefined: string }
    | { readonly value: number; readonly low: number; readonly high: number };
};

function progressWords({ litters, mean, change }: Progress): string {
  const head = `${counted(litters, 'litter')} so far.`;
  if ('undefined' in mean || 'undefined' in change)
    return `${head} From three litters on this page says whether the gap closes; before, too few data.`;
  const gap = `A single score lies ${mean.value.toFixed(1)} points from the mentor’s on average (90% interval ${mean.low.toFixed(1)} to ${mean.high.toFixed(1)}).`;
  if (change.high < 0)
    return `${head} ${gap} From litter to litter the gap closes by ${Math.abs(change.value).toFixed(2)} points (${Math.abs(change.high).toFixed(2)} to ${Math.abs(change.low).toFixed(2)}).`;
  if (change.low > 0)
    return `${head} ${gap} From litter to litter the gap widens by ${change.value.toFixed(2)} points (${change.low.toFixed(2)} to ${change.high.toFixed(2)}).`;
  return `${head} ${gap} Whether it closes or widens these litters do not tell.`;
}

type CriteriaProps = { readonly lesson: LessonView; readonly faces: Faces };
type Line = LessonView['criteria'][number];

const width = 320;
const middle = width / 2;

/** Criterion by criterion: how much higher or lower the learner reads, against what chance alone would give. */
function LessonCriteria({ lesson, faces }: CriteriaProps) {
  const judged = lesson.criteria.filter((line) => line.difference !== null);
  const reach = Math.max(
    1,
    ...judged.map(({ difference, expected }) => Math.max(Math.abs(difference ?? 0), expected ?? 0)),
  );
  const scale = (middle - 10) / reach;
  return (
    <section aria-labelledby="criteria" className="stack gap-12">
      <h2 id="criteria">Criterion by criterion</h2>
      <p>
        The dot is the learner’s mean score less the mentor’s, once a level of one’s own is taken off; the pale bar is
        what chance alone would stay within, over all criteria together, in 90 of 100 lessons. Left of the middle is
        lower, right is higher; on a two-sided criterion, towards too little or too much.
      </p>
      <ul className={`stack gap-10 ${styles.rows}`}>
        {judged.map((line) => (
          <li key={line.criterion} className={`grid centred gap-12 ${styles.row}`}>
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
          cells: [
            line.puppies,
            line.difference === null ? '–' : signed(line.difference),
            line.expected === null ? '–' : `±${line.expected.toFixed(2)}`,
            line.beyond ? 'yes' : 'no',
          ],
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
      <circle
        cx={middle + at}
        cy={13}
        r={line.beyond ? 7 : 5}
        className={line.beyond ? styles.beyond : styles.within}
      />
    </svg>
  );
}

function lineWords({ criterion, difference, expected, beyond }: Line, faces: Faces): string {
  const within = expected === null ? '' : `, chance stays within ${expected.toFixed(2)}`;
  return `${faces.criterionName(criterion)}: ${signed(difference ?? 0)} points${within}${beyond ? ', beyond it' : ''}.`;
}
