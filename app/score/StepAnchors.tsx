import type { Sheet } from '#lib/sheet/sheet';
import styles from './StepHead.module.css';
import type { Step } from './steps';

type Props = { readonly step: Step; readonly scale: Sheet['scale'] };

/** The words that tie the ends of the scale, or a check's answers, to what the eye or hand finds. */
export function StepAnchors({ step, scale }: Props) {
  const lines = anchorLines(step, scale);
  if (lines.length === 0) return <p className={styles.plain}>{plainWords(step)}</p>;
  const worded = step.kind !== 'overall' && 'criterion' in step && step.criterion.twoSided;
  return (
    <dl className={worded ? styles.worded : styles.anchors}>
      {lines.map(([mark, words]) => (
        <div key={mark}>
          <dt>{mark}</dt>
          <dd>{words}</dd>
        </div>
      ))}
    </dl>
  );
}

export const overallAnchors = {
  low: 'Far from what you look for in this breed at this age.',
  middle: 'Some of it is there.',
  high: 'What you look for is there.',
} as const;

function anchorLines(step: Step, scale: Sheet['scale']): readonly (readonly [string, string])[] {
  if (step.kind === 'overall') return oneSided(overallAnchors, scale);
  if (step.kind !== 'score' && step.kind !== 'free') return [];
  const { criterion } = step;
  if (!criterion.twoSided) return oneSided(criterion.anchors, scale);
  const { anchors, labels } = criterion;
  return [
    [labels.tooLittle, anchors.tooLittle],
    ['as asked', anchors.asked],
    [labels.tooMuch, anchors.tooMuch],
  ];
}

type Anchors = { readonly low: string; readonly middle: string; readonly high: string };

function oneSided(anchors: Anchors, { low, high }: Sheet['scale']): readonly (readonly [string, string])[] {
  const middle = (low + high) / 2;
  return [
    [String(low), anchors.low],
    [Number.isInteger(middle) ? String(middle) : `${Math.floor(middle)}–${Math.ceil(middle)}`, anchors.middle],
    [String(high), anchors.high],
  ];
}

function plainWords(step: Step): string {
  if (step.kind === 'check') return step.check.help;
  return 'How the puppy took the table, and whether today shows it fairly. A tired, full or frightened puppy is not to blame.';
}
