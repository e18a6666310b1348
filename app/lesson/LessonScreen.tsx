'use client';

import { useQuery } from '@tanstack/react-query';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { LessonView } from '#lib/contract/lesson';
import { EvaluationFrame } from '../board/EvaluationFrame';
import { facesOf } from '../board/facesOf';
import { useTRPC } from '../_data/trpc';
import { CautionNote } from '../_parts/CautionNote';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { Sentence } from '../_parts/Sentence';
import styles from './Lesson.module.css';
import { LessonCriteria } from './LessonCriteria';
import { LessonProgress } from './LessonProgress';
import { NextTime } from './NextTime';

/** A learner's card beside the mentor's, for the two of them: closed until the mentor has locked. */
export function LessonScreen() {
  return <EvaluationFrame here="lesson">{(evaluation) => (evaluation.revealed ? <Lesson evaluation={evaluation} /> : <NotYet />)}</EvaluationFrame>;
}

function NotYet() {
  return (
    <EmptyState title="The lesson opens with the mentor’s lock">
      <p>The learner locks first, then the mentor. Until then neither sees the other’s card.</p>
    </EmptyState>
  );
}

function Lesson({ evaluation }: { readonly evaluation: EvaluationView }) {
  const trpc = useTRPC();
  const { data: lesson, error } = useQuery(trpc.lesson.get.queryOptions({ id: evaluation.id }));
  if (!lesson) return error === null ? <Loading what="the lesson" /> : <Refusal error={error} />;
  const faces = facesOf(evaluation);
  return (
    <div className={styles.lesson}>
      <section aria-labelledby="parted" className={styles.part}>
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
      <LessonProgress evaluation={evaluation} />
      <CautionNote caution="early-days" />
    </div>
  );
}

function Picks({ lesson }: { readonly lesson: LessonView }) {
  if (lesson.picks.length === 0) return null;
  return (
    <section aria-labelledby="picks" className={styles.part}>
      <h2 id="picks">Picks</h2>
      <ul className={styles.lines}>
        {lesson.picks.map(({ slotId, sentence }) => (
          <li key={slotId}>{sentence}</li>
        ))}
      </ul>
    </section>
  );
}
