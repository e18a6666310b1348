import type { EvaluationView, PuppyFace } from '#lib/contract/evaluationView';
import type { LookView } from '#lib/contract/lookView';
import type { Faces } from '../board/facesOf';
import { PuppyIdentity } from '../_parts/PuppyIdentity';
import { SideBySide } from '../photos/SideBySide';
import { LookAnswerForm } from './LookAnswerForm';
import styles from './OpenLookTable.module.css';

export type OpenLookProps = { readonly look: LookView; readonly evaluation: EvaluationView; readonly faces: Faces };
/** The way to the next pair without an answer; null where there is none. */
export type NextPair = { readonly words: string; readonly go: () => void } | null;

/** One pair of the open batch: who stands where, and one's own private answer. Nothing of others. */
export function OpenLookTable({ next, ...props }: OpenLookProps & { readonly next: NextPair }) {
  const { look, faces } = props;
  const [left, right] = sidesOf(look, faces);
  if (!left || !right) return null;
  const sides = (
    <b>
      {left.name} on the left, {right.name} on the right
    </b>
  );
  return (
    <section aria-labelledby="open-look" className={styles.look}>
      <h3 id="open-look">
        Second look: {left.name} and {right.name}
      </h3>
      {look.medium === 'table' ? <p>Set up both at once, side by side: {sides}, as you see them.</p> : <p>From photographs, the same view of both: {sides}, on your screen.</p>}
      {look.repeat ? <p>They have changed places since the last look, so that the place cannot decide.</p> : null}
      <div className={styles.pair}>
        <Side side="Left" puppy={left} />
        <Side side="Right" puppy={right} />
      </div>
      <LookPictures look={look} evaluation={props.evaluation} pair={[left.id, right.id]} />
      {look.mayAnswer ? <LookAnswerForm {...props} left={left} right={right} next={next} /> : null}
      <p className="small">
        Your answer is yours alone. {look.state === 'open' ? 'Until the batch closes' : 'Until it is shown'} nobody sees any answer, nor how many there are; what you note, mark or ask meanwhile waits as well.
      </p>
    </section>
  );
}

/** What a look from photographs is answered from; folded away where both puppies stand there. */
function LookPictures({ look, evaluation, pair }: Pick<OpenLookProps, 'look' | 'evaluation'> & { readonly pair: readonly string[] }) {
  const pictures = <SideBySide key={look.id} evaluation={evaluation} puppyIds={pair} />;
  if (look.medium === 'photographs') return pictures;
  return (
    <details>
      <summary>Their pictures side by side</summary>
      {pictures}
    </details>
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
