'use client';

import type { EvaluationView, PuppyFace } from '#lib/contract/evaluationView';
import type { LookView } from '#lib/contract/lookView';
import type { Faces } from '../board/facesOf';
import { PuppyIdentity } from '../_parts/PuppyIdentity';
import { CloseLook } from './CloseLook';
import { LookAnswerForm } from './LookAnswerForm';
import { noAnswerWords } from './noAnswerWords';
import styles from './OpenLookTable.module.css';

export type OpenLookProps = { readonly look: LookView; readonly evaluation: EvaluationView; readonly faces: Faces };

/** The look that is open: who stands where, one's own private answer, and for whoever leads the close. Nothing of others. */
export function OpenLookTable(props: OpenLookProps) {
  const { look, evaluation, faces } = props;
  const [left, right] = sidesOf(look, faces);
  if (!left || !right) return null;
  return (
    <section aria-labelledby="open-look" className={styles.look}>
      <h2 id="open-look">
        Second look: {left.name} and {right.name}
      </h2>
      <p>
        Set up both at once, side by side: <b>{left.name} on the left, {right.name} on the right</b>, as you see them.
        {look.repeat ? ' They have changed places since the last look, so that the place cannot decide.' : ''}
      </p>
      <div className={styles.pair}>
        <Side side="Left" puppy={left} />
        <Side side="Right" puppy={right} />
      </div>
      {look.mayAnswer ? <LookAnswerForm {...props} left={left} right={right} /> : <p className={styles.told}>{noAnswerWords(look, evaluation)}</p>}
      <p className="small">Your answer is yours alone. Until the look closes nobody sees any answer, nor how many there are.</p>
      <CloseLook {...props} />
    </section>
  );
}

function Side({ side, puppy }: { readonly side: string; readonly puppy: PuppyFace }) {
  return (
    <div className={styles.side}>
      <p className="small">{side}</p>
      <PuppyIdentity puppy={puppy} level="h3" />
    </div>
  );
}

function sidesOf(look: LookView, faces: Faces): readonly (PuppyFace | undefined)[] {
  const other = look.leftPuppyId === look.firstPuppyId ? look.secondPuppyId : look.firstPuppyId;
  return [faces.puppy(look.leftPuppyId), faces.puppy(other)];
}
