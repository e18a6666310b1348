import type { EvaluationView, PuppyFace } from '#lib/contract/evaluationView';
import type { PhotoList } from '#lib/contract/photo';
import { shots, type ShotKey } from '#lib/photo/shot';
import type { PhotoQueue } from '../_data/photoQueue';
import { keeperOf } from './keeperOf';
import { PhotoThumb } from './PhotoThumb';
import styles from './Photos.module.css';
import { TakeShot } from './TakeShot';

type Props = {
  readonly evaluation: EvaluationView;
  readonly list: PhotoList;
  readonly queue: PhotoQueue;
  readonly puppy: PuppyFace;
  readonly shot: ShotKey;
  readonly onOpen: () => void;
};

/** One place of the shot list. */
export function ShotTile({ evaluation, list, queue, puppy, shot, onOpen }: Props) {
  const { name, clip } = shots[shot];
  const photo = keeperOf(list.photos, puppy.id, shot);
  const count = list.photos.filter((one) => one.puppyId === puppy.id && one.view === shot).length;
  if (!photo) {
    return list.may.add ? (
      <TakeShot evaluation={evaluation} queue={queue} puppy={puppy} shot={shot} tile>
        <span className={styles.tileName}>{name}</span>
        <span className="small">{clip ? 'take a clip' : 'take it'}</span>
      </TakeShot>
    ) : (
      <div className={styles.open}>
        <span className={styles.tileName}>{name}</span>
        <span className="small">missing</span>
      </div>
    );
  }
  const words = [count > 1 ? `${count} pictures` : '', photo.keeper ? 'keeper chosen' : '', photo.fair ? '' : 'not a fair picture'].filter((one) => one !== '');
  return (
    <button type="button" className={styles.tile} onClick={onOpen} aria-label={`${puppy.name}, ${name}: ${['taken', ...words].join(', ')}`}>
      {photo.kind === 'clip' ? <span className={styles.clip}>clip</span> : <PhotoThumb photo={photo} lazy />}
      <span className={styles.tileFoot}>
        <svg width="13" height="13" viewBox="0 0 13 13" aria-hidden="true" fill="none" stroke="currentColor" strokeWidth="2.2">
          <path d="M2 7.5 5 10.5 11 3" />
        </svg>
        <span className={styles.tileName}>{name}</span>
        {count > 1 && <span className="small figures">{count}</span>}
      </span>
    </button>
  );
}
