import { checkByKey } from '#lib/sheet/checkByKey';
import { momentWords } from '../board/momentWords';
import { capital } from '../board/capital';
import { ClearHoldForm } from './ClearHoldForm';
import { holdFallWords } from './holdFallWords';
import styles from './HoldsSection.module.css';
import type { DecideProps } from './PicksSection';

/** Checks that hold a show or breeding keep, and the veterinary answers recorded on them. The tool gives no verdict. */
export function HoldsSection(props: DecideProps) {
  const { evaluation, revealed, faces } = props;
  const { holds } = revealed.decision;
  const mayRecord = evaluation.viewer.owner && evaluation.phase === 'deciding';
  return (
    <section aria-labelledby="holds" className={styles.section}>
      <h2 id="holds">Holds</h2>
      <p>
        {holds.length === 0
          ? 'No check holds a puppy.'
          : 'A hold keeps a puppy out of a show or breeding keep until a veterinary surgeon has been asked and the answer is written down. What the answer means for a pick is yours to judge; nothing here reads it.'}
      </p>
      {holds.map((hold) => (
        <article key={`${hold.puppyId} ${hold.check}`} className={hold.cleared ? styles.answered : styles.hold}>
          <h3>{`${faces.puppyName(hold.puppyId)}: ${checkByKey(hold.check)?.name.toLowerCase() ?? hold.check}`}</h3>
          <p>{capital(hold.answers.join('; '))}.</p>
          {checkByKey(hold.check)?.caution ? <p className="small">{checkByKey(hold.check)?.caution}</p> : null}
          {hold.cleared ? (
            <p>
              Veterinary answer, {hold.cleared.by}, written down {momentWords(hold.cleared.at)}: <b>{hold.cleared.answer}</b>
            </p>
          ) : (
            <p>
              <b>Holds a show or breeding keep.</b> {holdFallWords(hold, props).join(' ')}
            </p>
          )}
          {!hold.cleared && mayRecord ? <ClearHoldForm hold={hold} evaluation={evaluation} puppyName={faces.puppyName(hold.puppyId)} /> : null}
        </article>
      ))}
    </section>
  );
}
