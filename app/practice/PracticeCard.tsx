'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { practicePictures } from '#lib/evaluation/practicePictures';
import type { PracticeAnswer, PracticePicture } from '#lib/contract/practice';
import type { Criterion } from '#lib/sheet/criterion';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import { useUnsavedGuard } from '../_parts/useUnsavedGuard';
import { cannotJudgeKey, oneSidedRows, twoSidedRows } from '../score/scaleRows';
import { KeyGrid } from '../score/KeyGrid';
import { DrawnPuppy } from './DrawnPuppy';
import styles from './Practice.module.css';
import { pictureWords } from './pictureWords';

type CardProps = { readonly evaluation: EvaluationView; readonly criteria: readonly string[] };

const cell = (picture: PracticePicture, criterion: string) => `${picture} ${criterion}`;

/** The practice card: the same few criteria on both pictures, then the lock. */
export function PracticeCard({ evaluation, criteria }: CardProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [chosen, choose] = useState<Readonly<Record<string, string>>>({});
  const lock = useMutation(trpc.practice.lock.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  useUnsavedGuard(Object.keys(chosen).length > 0 && !lock.isSuccess);
  const asked = evaluation.sheet.criteria.filter((one) => criteria.includes(one.key));
  const answers = practicePictures.flatMap((picture) => asked.flatMap(({ key: criterion }): PracticeAnswer[] => {
    const key = chosen[cell(picture, criterion)];
    return key === undefined ? [] : [{ picture, criterion, value: key === cannotJudgeKey ? null : Number(key) }];
  }));
  const left = practicePictures.length * asked.length - answers.length;
  return (
    <div className={styles.practice}>
      <h2>Practice</h2>
      <p>Two drawn puppies, a few criteria. Nothing here counts. When you lock, you see what the others said who have locked, and they see yours.</p>
      {practicePictures.map((picture) => (
        <section key={picture} aria-label={pictureWords[picture]} className={styles.one}>
          <h3>{pictureWords[picture]}</h3>
          <DrawnPuppy picture={picture} label={`${pictureWords[picture]}, set up, seen from its right side`} />
          {asked.map((criterion) => (
            <Asked
              key={criterion.key}
              criterion={criterion}
              picture={picture}
              evaluation={evaluation}
              chosen={chosen[cell(picture, criterion.key)] ?? null}
              onChoose={(key) => choose((before) => ({ ...before, [cell(picture, criterion.key)]: key }))}
            />
          ))}
        </section>
      ))}
      <div>
        <Button tone="main" busy={lock.isPending} disabled={answers.length === 0} onClick={() => lock.mutate({ id: evaluation.id, answers })}>
          Lock my practice
        </Button>
      </div>
      <p className="small">{left === 0 ? 'Everything is answered.' : `${left} not answered yet; you may lock all the same, once.`}</p>
      <Refusal error={lock.error} />
    </div>
  );
}

type AskedProps = {
  readonly criterion: Criterion;
  readonly picture: PracticePicture;
  readonly evaluation: EvaluationView;
  readonly chosen: string | null;
  readonly onChoose: (key: string) => void;
};

function Asked({ criterion, picture, evaluation, chosen, onChoose }: AskedProps) {
  const layout = criterion.twoSided ? twoSidedRows(criterion.labels) : oneSidedRows(evaluation.sheet.scale, criterion.labels);
  return (
    <div className={styles.asked}>
      <h4>{criterion.name}</h4>
      <p className="small">{criterion.twoSided ? criterion.anchors.asked : criterion.anchors.high}</p>
      <KeyGrid label={`${criterion.name}, ${pictureWords[picture]}`} {...layout} chosen={chosen} onChoose={onChoose} onNext={() => undefined} takeFocus={false} />
    </div>
  );
}
