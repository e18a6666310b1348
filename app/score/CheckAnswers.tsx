'use client';

import { registerOf } from '#lib/evaluation/outboxState';
import { KeyGrid } from './KeyGrid';
import styles from './Answers.module.css';
import { stepField, type Step } from './steps';
import type { StepKeysProps } from './StepKeys';
import { useDraft } from './useDraft';

type CheckStep = Extract<Step, { kind: 'check' }>;

/** A check's own answers; a gap between the teeth may be told in millimetres. */
export function CheckAnswers({ scoring, step, subject, change, onNext, takeFocus }: StepKeysProps<CheckStep>) {
  const { check } = step;
  const body = scoring.answers.get(registerOf(subject, stepField(step)))?.body;
  const said = body?.kind === 'check' ? body : null;
  const chosen = said?.answer ?? null;
  const gap = (key: string | null) => check.answers.find((answer) => answer.key === key)?.gap === true;
  const draft = useDraft(said?.detail ?? '', (detail) => scoring.say(subject, { kind: 'check', check: check.key, answer: chosen, detail }));
  const choose = (key: string, downAt: number) => {
    draft.finish();
    const answer = key === chosen ? null : key;
    change({ body: { kind: 'check', check: check.key, answer, detail: gap(answer) ? draft.value.trim() : '' }, cleared: answer === null, downAt });
  };
  return (
    <div className={styles.answers}>
      {gap(chosen) && (
        <label className={styles.line}>
          <span>Gap in millimetres, if you like</span>
          <input
            inputMode="decimal"
            autoComplete="off"
            maxLength={6}
            value={draft.value}
            onChange={(event) => draft.type(event.target.value.replace(/[^0-9.,]/g, ''))}
            onBlur={draft.finish}
          />
        </label>
      )}
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
