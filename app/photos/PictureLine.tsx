'use client';

import type { PuppyFace } from '#lib/contract/evaluationView';
import type { PhotoFace, PhotoList } from '#lib/contract/photo';
import type { Match } from '#lib/photo/matchSequence';
import { Button } from '../_parts/Button';
import { Confirm } from '../_parts/Confirm';
import { FieldTick } from '../_parts/FieldTick';
import { MatchForm } from './MatchForm';
import { PhotoThumb } from './PhotoThumb';
import { usePhotoAddress } from './usePhotoAddress';
import styles from './Photos.module.css';

type Props = {
  readonly title: string;
  readonly photo: PhotoFace;
  readonly puppies: readonly PuppyFace[];
  readonly may: PhotoList['may'];
  readonly mayRemove: boolean;
  readonly busy: boolean;
  readonly onOpen: () => void;
  readonly onKeep: () => void;
  readonly onFair: (fair: boolean) => void;
  readonly onPlace: (match: Match) => void;
  readonly onRemove: () => void;
};

/** One picture with all that can be said and done about it. */
export function PictureLine({ title, photo, puppies, may, mayRemove, busy, onOpen, onKeep, onFair, onPlace, onRemove }: Props) {
  const clip = usePhotoAddress(photo.id, 'large');
  return (
    <section className={styles.picture} aria-label={title}>
      {photo.kind === 'clip' ? (
        <video {...clip} controls playsInline preload="metadata" className={styles.video} />
      ) : (
        <button type="button" className={styles.preview} onClick={onOpen} aria-label={`Look closely: ${title}`}>
          <PhotoThumb photo={photo} />
        </button>
      )}
      <div className={styles.pictureWords}>
        <h3>
          {title}
          {photo.keeper ? ' · the keeper' : ''}
        </h3>
        <FieldTick label="A fair picture of this puppy" hint="Stance, light and angle only; nothing about structure." ticked={photo.fair} disabled={!may.add} onChange={onFair} />
        <div className={styles.buttons}>
          {photo.kind === 'picture' && <Button onClick={onOpen}>Look closely</Button>}
          {may.keep && !photo.keeper && (
            <Button busy={busy} onClick={onKeep}>
              Keep this one
            </Button>
          )}
        </div>
        {may.add && (
          <details>
            <summary>Another puppy or view</summary>
            <MatchForm key={`${photo.puppyId} ${photo.view}`} puppies={puppies} match={photo} words="Move it there" onMatch={onPlace} />
          </details>
        )}
        {mayRemove && may.add && (
          <Confirm words="Remove" about={title} doIt="Remove it for good" busy={busy} tone="quiet" onConfirm={onRemove}>
            <p>The picture and its file go for good, with what was pointed at on it.</p>
          </Confirm>
        )}
      </div>
    </section>
  );
}
