import type { CheckKey } from '#lib/sheet/check';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import { type Criterion, views } from '#lib/sheet/criterion';
import type { Sheet } from '#lib/sheet/sheet';
import { CautionNote } from '../_parts/CautionNote';
import { viewWords } from '../_parts/textWords';
import { evidenceWords, levelWords } from './criterionDraft';
import styles from './sheet.module.css';

/** A sheet to read before the day: criteria by view, then the checks. */
export function SheetReader({ sheet }: { readonly sheet: Sheet }) {
  return (
    <>
      <div className="stack reads gap-12">
        <p>
          Score what stands in front of you today, not what may become of it. A two-sided criterion is best in the
          middle: say in which direction it leaves it and how far, 1 slight, 2 clear, 3 marked. Whoever cannot judge
          something from where they are says so; that is no middle score.
        </p>
        <CautionNote caution="extremes" />
      </div>
      {views.map((view) => {
        const criteria = sheet.criteria.filter((criterion) => criterion.view === view);
        if (criteria.length === 0) return null;
        return (
          <section key={view} className="stack gap-12">
            <h2>{viewWords[view]}</h2>
            <div className={`grid gap-16 ${styles.cards}`}>
              {criteria.map((criterion) => (
                <CriterionCard key={criterion.key} criterion={criterion} scale={sheet.scale} />
              ))}
            </div>
          </section>
        );
      })}
      <section className="stack gap-12">
        <h2>Checks</h2>
        <p className="text">Answered in words and never added to a score. “Not examined” is always an answer.</p>
        {sheet.checks.length === 0 ? <p>This sheet asks for none.</p> : null}
        <div className={`grid gap-16 ${styles.cards}`}>
          {sheet.checks.map((key) => (
            <CheckCard key={key} check={key} />
          ))}
        </div>
        <CautionNote caution="not-veterinary" />
      </section>
    </>
  );
}

function CheckCard({ check: key }: { readonly check: CheckKey }) {
  const check = checkByKey(key);
  if (!check) return null;
  const tags = [
    check.handsOnly ? 'by hand only' : '',
    check.holdsKeep ? 'can hold a show or breeding keep' : '',
  ].filter((tag) => tag !== '');
  return (
    <article className={`sheet stack upright gap-8 ${styles.card}`}>
      <h3>{check.name}</h3>
      {tags.length > 0 ? <p className={styles.tags}>{tags.join(' · ')}</p> : null}
      <p>{check.help}</p>
      <p className="small">Answers: {check.answers.map(({ words }) => words).join('; ')}.</p>
      <p className="small">{check.caution}</p>
    </article>
  );
}

type CriterionCardProps = { readonly criterion: Criterion; readonly scale: Sheet['scale'] };

/** One criterion in full: what its scores mean, why it matters, how far a reading can be leaned on. */
function CriterionCard({ criterion, scale }: CriterionCardProps) {
  const { name, handsOnly, twoSided, freeStance, why, steadiness, later, evidence } = criterion;
  const tags = [
    twoSided ? 'two-sided' : '',
    handsOnly ? 'by hand only' : '',
    freeStance ? 'also standing by itself' : '',
  ].filter((tag) => tag !== '');
  return (
    <article className={`sheet stack upright gap-8 ${styles.card}`}>
      <h3>{name}</h3>
      {tags.length > 0 ? <p className={styles.tags}>{tags.join(' · ')}</p> : null}
      <dl className={`stack gap-6 ${styles.anchors}`}>
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
    {
      at: Number.isInteger(middle) ? String(middle) : `${Math.floor(middle)}–${Math.ceil(middle)}`,
      words: criterion.anchors.middle,
    },
    { at: String(high), words: criterion.anchors.high },
  ];
}
