'use client';

import type { EntryBody } from '#lib/contract/entry';
import { registerOf } from '#lib/evaluation/outboxState';
import { KeyGrid } from './KeyGrid';
import { mannerWords } from './answerWords';
import { cannotJudgeKey, type KeyLayout, oneSidedRows, twoSidedRows } from './scaleRows';
import styles from './score.module.css';
import { type Step, stepField, stepTitle } from './steps';
import { useDraft } from './useDraft';
import type { Scoring } from './useScoring';

export type PressedEdit = { readonly body: EntryBody; readonly cleared: boolean; readonly downAt: number };

type StepKeysProps<S extends Step = Step> = {
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
      onChoose={(key, downAt) =>
        change({ body: gradeBody(step, key === chosen ? null : key), cleared: key === chosen, downAt })
      }
      onNext={onNext}
      takeFocus={takeFocus}
    />
  );
}

function layoutOf(step: Graded, { evaluation }: Scoring): KeyLayout {
  const { scale } = evaluation.sheet;
  if (step.kind === 'overall')
    return oneSidedRows(scale, { low: 'far from it', middle: 'in part', high: 'as looked for' });
  const { criterion } = step;
  return criterion.twoSided ? twoSidedRows(criterion.labels) : oneSidedRows(scale, criterion.labels);
}

type GradeBodyGraded = Extract<Step, { kind: 'score' | 'free' | 'overall' }>;

/** The entry a key makes; null clears. */
function gradeBody(step: GradeBodyGraded, key: string | null): EntryBody {
  const cannotJudge = key === cannotJudgeKey;
  const grade = { cannotJudge, value: key === null || cannotJudge ? null : Number(key) };
  return step.kind === 'overall'
    ? { kind: 'overall', ...grade }
    : { kind: step.kind, criterion: step.criterion.key, ...grade };
}

/** The key that a standing answer presses. */
function gradeKey(body: EntryBody | null | undefined): string | null {
  if (body?.kind !== 'score' && body?.kind !== 'free' && body?.kind !== 'overall') return null;
  if (body.cannotJudge) return cannotJudgeKey;
  return body.value === null ? null : String(body.value);
}

type CheckStep = Extract<Step, { kind: 'check' }>;

/** A check's own answers; a gap between the teeth may be told in millimetres. */
function CheckAnswers({ scoring, step, subject, change, onNext, takeFocus }: StepKeysProps<CheckStep>) {
  const { check } = step;
  const body = scoring.answers.get(registerOf(subject, stepField(step)))?.body;
  const said = body?.kind === 'check' ? body : null;
  const chosen = said?.answer ?? null;
  const gap = (key: string | null) => check.answers.find((answer) => answer.key === key)?.gap === true;
  const draft = useDraft(said?.detail ?? '', (detail) =>
    scoring.say(subject, { kind: 'check', check: check.key, answer: chosen, detail }),
  );
  const choose = (key: string, downAt: number) => {
    draft.finish();
    const answer = key === chosen ? null : key;
    change({
      body: { kind: 'check', check: check.key, answer, detail: gap(answer) ? draft.value.trim() : '' },
      cleared: answer === null,
      downAt,
    });
  };
  return (
    <div className="stack gap-8">
      {gap(chosen) ? (
        <label className={`stack gap-4 bold ${styles.line}`}>
          <span>Gap in millimetres, if you like</span>
          <input
            className="key full"
            inputMode="decimal"
            autoComplete="off"
            maxLength={6}
            value={draft.value}
            onChange={(event) => draft.type(event.target.value.replace(/[^0-9.,]/g, ''))}
            onBlur={draft.finish}
          />
        </label>
      ) : null}
      <KeyGrid
        label={check.name}
        columns={2}
        rows={[
          {
            options: check.answers.map(({ key, words }, index) => ({
              key,
              big: words,
              typed: String(index + 1),
              columns: index === check.answers.length - 1 && check.answers.length % 2 === 1 ? 2 : 1,
              text: true,
            })),
          },
        ]}
        chosen={chosen}
        onChoose={choose}
        onNext={onNext}
        takeFocus={takeFocus}
      />
    </div>
  );
}

type DayStep = Extract<Step, { kind: 'day' }>;

const manners = ['relaxed', 'tense', 'fought'] as const;

/** Manner on the table, and whether the day shows the puppy fairly, with why not. */
function DayAnswers({ scoring, subject, change, onNext, takeFocus }: StepKeysProps<DayStep>) {
  const manner = scoring.answers.get(registerOf(subject, 'manner'))?.body;
  const fair = scoring.answers.get(registerOf(subject, 'fair'))?.body;
  const chosen = manner?.kind === 'manner' ? manner.manner : null;
  const unfair = fair?.kind === 'fair' && !fair.fair;
  const why = fair?.kind === 'fair' ? fair.why : '';
  const draft = useDraft(why, (text) => scoring.say(subject, { kind: 'fair', fair: false, why: text.trim() }));
  const turnFair = (_key: string, downAt: number) => {
    draft.finish();
    change({ body: { kind: 'fair', fair: unfair, why: unfair ? '' : draft.value.trim() }, cleared: unfair, downAt });
  };
  return (
    <div className="stack gap-8">
      {unfair ? (
        <label className={`stack gap-4 bold ${styles.line}`}>
          <span>Why not: tired, just fed, frightened …</span>
          <input
            className="key full"
            autoComplete="off"
            maxLength={200}
            value={draft.value}
            onChange={(event) => draft.type(event.target.value.replace(/\p{Cc}/gu, ' '))}
            onBlur={draft.finish}
          />
        </label>
      ) : null}
      <KeyGrid
        label="A fair day"
        columns={2}
        rows={[{ options: [{ key: 'unfair', big: 'not a fair day', typed: '9', columns: 2, text: true }] }]}
        chosen={unfair ? 'unfair' : null}
        onChoose={turnFair}
        onNext={onNext}
        takeFocus={false}
      />
      <p className={`small ${styles.heading}`}>Manner on the table</p>
      <KeyGrid
        label="Manner on the table"
        columns={3}
        rows={[
          {
            options: manners.map((key, index) => ({
              key,
              big: mannerWords[key],
              typed: String(index + 1),
              columns: 1,
              text: true,
            })),
          },
        ]}
        chosen={chosen}
        onChoose={(key, downAt) => {
          const picked = manners.find((one) => one === key) ?? null;
          change({
            body: { kind: 'manner', manner: picked === chosen ? null : picked },
            cleared: picked === chosen,
            downAt,
          });
        }}
        onNext={onNext}
        takeFocus={takeFocus}
      />
    </div>
  );
}
