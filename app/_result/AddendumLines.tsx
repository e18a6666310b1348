import type { Addendum } from '#lib/contract/addendum';
import { checkNames } from '#lib/evaluation/checksMade';
import { choiceWords } from '#lib/evaluation/holdsOf';
import type { Faces } from '../_evaluation/facesOf';
import { capital } from '../_parts/textWords';
import { dayWords, momentWords } from '../_parts/timeWords';
import styles from './_result.module.css';

const kindWords: Readonly<Record<Addendum['kind'], string>> = {
  behaviour: 'how it behaves',
  veterinary: 'veterinary answer',
  correction: 'correction',
  home: 'home',
};

/** What the owner wrote, oldest first: about whom, what it is, its words, by whom and when. */
export function AddendumLines({ addenda, faces }: { readonly addenda: readonly Addendum[]; readonly faces: Faces }) {
  return (
    <ul className="list topped lined unless-empty">
      {addenda.map((one) => (
        <li key={one.id} className={`stack gap-2 ${styles.written}`}>
          <b>{addendumHead(one, faces)}</b>
          <span className="asWritten">{one.text}</span>
          <span className="small">
            {one.by === '' ? 'The owner' : one.by}, written down {momentWords(one.at)}
          </span>
        </li>
      ))}
    </ul>
  );
}

function addendumHead({ kind, puppyId, check, choice }: Addendum, faces: Faces): string {
  const about = puppyId === null ? 'The evaluation' : faces.puppyName(puppyId);
  return `${about}: ${kindWords[kind]}${check === null ? '' : ` on ${checkNames([check])}, ${choiceWords(choice, dayWords)}`}`;
}

/** "How it behaves" of one puppy, as it stands beside it where it is picked. */
export function behaviourWords(addenda: readonly Addendum[], puppyId: string): string {
  return capital(
    addenda
      .filter((one) => one.kind === 'behaviour' && one.puppyId === puppyId)
      .map(({ text, by }) => `“${text}” (${by})`)
      .join('; '),
  );
}
