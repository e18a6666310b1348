'use client';

import { registerOf } from '#lib/evaluation/outboxState';
import styles from './score.module.css';
import { mannerWords } from './answerWords';
import { KeyGrid } from './KeyGrid';
import type { Step } from './steps';
import type { StepKeysProps } from './StepKeys';
import { useDraft } from './useDraft';

type DayStep = Extract<Step, { kind: 'day' }>;

const manners = ['relaxed', 'tense', 'fought'] as const;

/** Manner on the table, and whether the day shows the puppy fairly, with why not. */
export function DayAnswers({ scoring, subject, change, onNext, takeFocus }: StepKeysProps<DayStep>) {
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
    <div className={styles.answers}>
      {unfair ? (
        <label className={styles.line}>
          <span>Why not: tired, just fed, frightened …</span>
          <input
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
      <p className={styles.heading}>Manner on the table</p>
      <KeyGrid
        label="Manner on the table"
        columns={3}
        rows={[{ options: manners.map((key, index) => ({ key, big: mannerWords[key], typed: String(index + 1), columns: 1, text: true })) }]}
        chosen={chosen}
        onChoose={(key, downAt) => {
          const picked = manners.find((one) => one === key) ?? null;
          change({ body: { kind: 'manner', manner: picked === chosen ? null : picked }, cleared: picked === chosen, downAt });
        }}
        onNext={onNext}
        takeFocus={takeFocus}
      />
    </div>
  );
}
