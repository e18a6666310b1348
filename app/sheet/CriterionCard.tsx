import type { Criterion } from '#lib/sheet/criterion';
import type { Sheet } from '#lib/sheet/sheet';
import { evidenceWords, levelWords } from './criterionWords';
import styles from './Sheet.module.css';

type CriterionCardProps = { readonly criterion: Criterion; readonly scale: Sheet['scale'] };

/** One criterion in full: what its scores mean, why it matters, how far a reading can be leaned on. */
export function CriterionCard({ criterion, scale }: CriterionCardProps) {
  const { name, handsOnly, twoSided, freeStance, why, steadiness, later, evidence } = criterion;
  const tags = [twoSided ? 'two-sided' : '', handsOnly ? 'by hand only' : '', freeStance ? 'also standing by itself' : ''].filter((tag) => tag !== '');
  return (
    <article className={styles.card}>
      <h3>{name}</h3>
      {tags.length > 0 ? <p className={styles.tags}>{tags.join(' · ')}</p> : null}
      <dl className={styles.anchors}>
        {anchorsOf(criterion, scale).map(({ at, words }) => (
          <div key={at}>
            <dt>{at}</dt>
            <dd>{words}</dd>
          </div>
        ))}
      </dl>
      <p>
        <b>Why it matters.</b> {why}
      </p>
      <p>
        <b>Steadiness at eight weeks:</b> {levelWords[steadiness.level]}. {steadiness.note}
      </p>
      <p>
        <b>Later.</b> {later}
      </p>
      <p className="small">Shows best {evidence.map((kind) => evidenceWords[kind]).join(', then ')}.</p>
    </article>
  );
}

type Anchor = { readonly at: string; readonly words: string };

/** The middle anchor stands at the middle step where there is one, else between the two middle steps. */
function anchorsOf(criterion: Criterion, { low, high }: Sheet['scale']): Anchor[] {
  if (criterion.twoSided) {
    const { tooLittle, asked, tooMuch } = criterion.anchors;
    return [
      { at: criterion.labels.tooLittle, words: tooLittle },
      { at: 'as asked', words: asked },
      { at: criterion.labels.tooMuch, words: tooMuch },
    ];
  }
  const middle = (low + high) / 2;
  return [
    { at: String(low), words: criterion.anchors.low },
    { at: Number.isInteger(middle) ? String(middle) : `${Math.floor(middle)}–${Math.ceil(middle)}`, words: criterion.anchors.middle },
    { at: String(high), words: criterion.anchors.high },
  ];
}
