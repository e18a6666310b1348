import styles from './KeyHints.module.css';
import type { Step } from './steps';

/** What the keyboard does while the focus is within the keys. */
export function KeyHints({ step }: { readonly step: Step | null }) {
  if (!step) return null;
  const hints = [...typedHints(step), ['arrows', 'move'], ['space', 'choose, or take back'], ['Enter', 'next']] as const;
  return (
    <p className={styles.hints}>
      {hints.map(([key, does]) => (
        <span key={key}>
          <kbd>{key}</kbd> {does}
        </span>
      ))}
    </p>
  );
}

function typedHints(step: Step): readonly (readonly [string, string])[] {
  if (step.kind === 'check' || step.kind === 'day') return [['1 2 3 …', 'answers in order']];
  if (step.kind !== 'overall' && step.criterion.twoSided) {
    const { labels } = step.criterion;
    return [['0', 'as asked'], ['1 2 3', labels.tooMuch], ['− then 1 2 3', labels.tooLittle], ['c', 'cannot judge']];
  }
  return [['digit', 'scores'], ['c', 'cannot judge']];
}
