'use client';

import type { EntryBody } from '#lib/contract/entry';
import { registerOf } from '#lib/evaluation/outboxState';
import { CheckAnswers } from './CheckAnswers';
import { DayAnswers } from './DayAnswers';
import { gradeBody, gradeKey } from './gradeBody';
import { KeyGrid } from './KeyGrid';
import { oneSidedRows, twoSidedRows, type KeyLayout } from './scaleRows';
import { stepField, stepTitle, type Step } from './steps';
import type { Scoring } from './useScoring';

export type PressedEdit = { readonly body: EntryBody; readonly cleared: boolean; readonly downAt: number };

export type StepKeysProps<S extends Step = Step> = {
  readonly scoring: Scoring;
  readonly step: S;
  readonly subject: string;
  /** Takes the edit of a press whose finger came down then, and offers to undo it. */
  readonly change: (edit: PressedEdit) => void;
  readonly onNext: () => void;
  readonly takeFocus: boolean;
};

/** The keys that answer one question. */
export function StepKeys(props: StepKeysProps) {
  const { step } = props;
  switch (step.kind) {
    case 'score':
    case 'free':
    case 'overall':
      return <GradeKeys {...props} step={step} />;
    case 'check':
      return <CheckAnswers {...props} step={step} />;
    case 'day':
      return <DayAnswers {...props} step={step} />;
  }
}

type Graded = Extract<Step, { kind: 'score' | 'free' | 'overall' }>;

function GradeKeys({ scoring, step, subject, change, onNext, takeFocus }: StepKeysProps<Graded>) {
  const chosen = gradeKey(scoring.answers.get(registerOf(subject, stepField(step)))?.body);
  return (
    <KeyGrid
      label={stepTitle(step)}
      {...layoutOf(step, scoring)}
      chosen={chosen}
      onChoose={(key, downAt) => change({ body: gradeBody(step, key === chosen ? null : key), cleared: key === chosen, downAt })}
      onNext={onNext}
      takeFocus={takeFocus}
    />
  );
}

function layoutOf(step: Graded, { evaluation }: Scoring): KeyLayout {
  const { scale } = evaluation.sheet;
  if (step.kind === 'overall') return oneSidedRows(scale, { low: 'far from it', middle: 'in part', high: 'as looked for' });
  const { criterion } = step;
  return criterion.twoSided ? twoSidedRows(criterion.labels) : oneSidedRows(scale, criterion.labels);
}
