'use client';

import { useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { PracticeAnswer, PracticePicture, PracticeView } from '#lib/contract/practice';
import { practicePictures } from '#lib/evaluation/practice';
import type { Criterion } from '#lib/sheet/criterion';
import { useTRPC } from '../_data/trpc';
import { EvaluationFrame } from '../_evaluation/EvaluationFrame';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { facesOf } from '../_evaluation/facesOf';
import { Button } from '../_parts/Button';
import { EmptyState } from '../_parts/EmptyState';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { ScoreStrip, type StripDot } from '../_parts/ScoreStrip';
import { useUnsavedGuard } from '../_parts/useUnsavedGuard';
import { stripScale } from '../_result/scoreWords';
import { KeyGrid } from '../score/KeyGrid';
import { cannotJudgeKey, oneSidedRows, twoSidedRows } from '../score/scaleRows';
import { DrawnPuppy, pictureWords, practiceShapes } from './DrawnPuppy';

/** Two drawn puppies before the day: the same eye for the same words. Each seat sees the others' answers at its own lock. */
export function PracticeScreen() {
  return (
    <EvaluationFrame here="practice">
      <Practice />
    </EvaluationFrame>
  );
}

function Practice() {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const { data: practice, error } = useQuery(trpc.practice.get.queryOptions({ id: evaluation.id }));
  if (!practice) return error === null ? <Loading what="the practice" /> : <Refusal error={error} />;
  if (practice.own) return <PracticeCompared practice={practice} />;
  if (practice.open && practice.criteria.length > 0) return <PracticeCard criteria={practice.criteria} />;
  return (
    <EmptyState title="No practice here">
      <p>
        {practice.open
          ? 'The sheet has nothing that a side picture shows.'
          : 'Practice is for seats that score, before the scoring begins. This seat took no part, or did so on a device it was issued to before.'}
      </p>
    </EmptyState>
  );
}

type ComparedProps = { readonly practice: PracticeView };
type Card = { readonly seat: string | null; readonly own: boolean; readonly answers: NonNullable<PracticeView['own']> };

/** One's own practice beside the others' who have locked: where the same picture got different numbers is worth a word before the day. */
function PracticeCompared({ practice }: ComparedProps) {
  const evaluation = useEvaluation();
  const others = practice.others ?? [];
  const cards: Card[] = [
    { seat: evaluation.viewer.seatId, own: true, answers: practice.own ?? [] },
    ...others.map((card) => ({ ...card, own: false })),
  ];
  return (
    <div className="stack text gap-20">
      <h2>Practice, compared</h2>
      <p>
        {others.length === 0
          ? 'Nobody else has locked yet. This page fills as they do.'
          : 'Where the same picture got different numbers, settle before the day what the words of the sheet mean. Nothing here counts.'}
      </p>
      {practicePictures.map((picture) => (
        <section key={picture} aria-label={pictureWords[picture]} className="stack topped gap-16 parted">
          <h3>{pictureWords[picture]}</h3>
          <DrawnPuppy picture={picture} label={`${pictureWords[picture]}, set up, seen from its right side`} />
          <p className="small">
            Drawn {practiceShapes[picture].lengthHeight.toFixed(2)} times as long (point of shoulder to point of
            buttock) as it is high at the withers.
          </p>
          {practice.criteria.map((key) => {
            const criterion = evaluation.sheet.criteria.find((one) => one.key === key);
            return criterion ? <ComparedCriterion key={key} {...{ criterion, picture, cards }} /> : null;
          })}
        </section>
      ))}
    </div>
  );
}

type CriterionProps = {
  readonly criterion: Criterion;
  readonly picture: PracticePicture;
  readonly cards: readonly Card[];
};

function ComparedCriterion({ criterion, picture, cards }: CriterionProps) {
  const evaluation = useEvaluation();
  const faces = facesOf(evaluation);
  const dots = cards.flatMap(({ seat, own, answers }, at): StripDot[] => {
    const answer = answers.find((one) => one.picture === picture && one.criterion === criterion.key);
    if (!answer || answer.value === null) return [];
    return [
      {
        seat: seat ?? String(at),
        position: faces.seat(seat)?.position ?? 0,
        label: own ? 'you' : faces.seatLabel(seat),
        value: answer.value,
      },
    ];
  });
  return (
    <div className="stack gap-6">
      <h4>{criterion.name}</h4>
      <ScoreStrip
        scale={stripScale(criterion, evaluation.sheet)}
        dots={dots}
        cannotJudge={[]}
        subject={`${pictureWords[picture]}, ${criterion.name}`}
        room={2}
      />
      <p className="small">
        {dots.length === 0 ? 'Nobody answered this.' : dots.map(({ label, value }) => `${label} ${value}`).join(', ')}
      </p>
    </div>
  );
}

type CardProps = { readonly criteria: readonly string[] };

const cell = (picture: PracticePicture, criterion: string) => `${picture} ${criterion}`;

/** The practice card: the same few criteria on both pictures, then the lock. */
function PracticeCard({ criteria }: CardProps) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [chosen, choose] = useState<Readonly<Record<string, string>>>({});
  const lock = useMutation(trpc.practice.lock.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  useUnsavedGuard(Object.keys(chosen).length > 0 && !lock.isSuccess);
  const asked = evaluation.sheet.criteria.filter((one) => criteria.includes(one.key));
  const answers = practicePictures.flatMap((picture) =>
    asked.flatMap(({ key: criterion }): PracticeAnswer[] => {
      const key = chosen[cell(picture, criterion)];
      return key === undefined ? [] : [{ picture, criterion, value: key === cannotJudgeKey ? null : Number(key) }];
    }),
  );
  const left = practicePictures.length * asked.length - answers.length;
  return (
    <div className="stack text gap-20">
      <h2>Practice</h2>
      <p>
        Two drawn puppies, a few criteria. Nothing here counts. When you lock, you see what the others said who have
        locked, and they see yours.
      </p>
      {practicePictures.map((picture) => (
        <section key={picture} aria-label={pictureWords[picture]} className="stack topped gap-16 parted">
          <h3>{pictureWords[picture]}</h3>
          <DrawnPuppy picture={picture} label={`${pictureWords[picture]}, set up, seen from its right side`} />
          {asked.map((criterion) => (
            <Asked
              key={criterion.key}
              criterion={criterion}
              picture={picture}
              chosen={chosen[cell(picture, criterion.key)] ?? null}
              onChoose={(key) => choose((before) => ({ ...before, [cell(picture, criterion.key)]: key }))}
            />
          ))}
        </section>
      ))}
      <div>
        <Button
          tone="main"
          busy={lock.isPending}
          disabled={answers.length === 0}
          onClick={() => lock.mutate({ id: evaluation.id, answers })}
        >
          Lock my practice
        </Button>
      </div>
      <p className="small">
        {left === 0 ? 'Everything is answered.' : `${left} not answered yet; you may lock all the same, once.`}
      </p>
      <Refusal error={lock.error} />
    </div>
  );
}

type AskedProps = {
  readonly criterion: Criterion;
  readonly picture: PracticePicture;
  readonly chosen: string | null;
  readonly onChoose: (key: string) => void;
};

function Asked({ criterion, picture, chosen, onChoose }: AskedProps) {
  const evaluation = useEvaluation();
  const layout = criterion.twoSided
    ? twoSidedRows(criterion.labels)
    : oneSidedRows(evaluation.sheet.scale, criterion.labels);
  return (
    <div className="stack gap-6">
      <h4>{criterion.name}</h4>
      <p className="small">{criterion.twoSided ? criterion.anchors.asked : criterion.anchors.high}</p>
      <KeyGrid
        label={`${criterion.name}, ${pictureWords[picture]}`}
        {...layout}
        chosen={chosen}
        onChoose={onChoose}
        onNext={() => undefined}
        takeFocus={false}
      />
    </div>
  );
}
