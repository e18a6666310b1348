'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { PuppyFace } from '#lib/contract/evaluationView';
import type { PhotoFace, PhotoList } from '#lib/contract/photo';
import { type Match, type ShotKey, shots } from '#lib/photo/shot';
import type { PhotoQueue } from '../_data/photoQueue';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from '../_parts/Button';
import { Confirm } from '../_parts/Confirm';
import { Disclosure } from '../_parts/Disclosure';
import { FieldTick } from '../_parts/FieldTick';
import { Refusal } from '../_parts/Refusal';
import { MatchForm } from './MatchForm';
import { PhotoThumb, usePhotoAddress } from './PhotoThumb';
import { TakeShot } from './TakeShot';
import styles from './photos.module.css';

type Props = {
  readonly list: PhotoList;
  readonly queue: PhotoQueue;
  readonly puppy: PuppyFace;
  readonly shot: ShotKey;
  readonly onOpen: (photoId: string) => void;
};

/** All pictures of one view of one puppy: which is kept, which is fair, whose it really is. */
export function ShotPanel({ list, queue, puppy, shot, onOpen }: Props) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const after = { onSuccess: () => queries.invalidateQueries(trpc.photo.list.queryFilter({ id: evaluation.id })) };
  const keep = useMutation(trpc.photo.keep.mutationOptions(after));
  const fair = useMutation(trpc.photo.setFair.mutationOptions(after));
  const place = useMutation(trpc.photo.place.mutationOptions(after));
  const remove = useMutation(trpc.photo.remove.mutationOptions(after));
  const photos = list.photos.filter((photo) => photo.puppyId === puppy.id && photo.view === shot);
  const to = (photoId: string) => ({ id: evaluation.id, photoId });
  return (
    <div className="stack gap-18">
      <p className="small">{shots[shot].how}</p>
      {!list.may.keep ? (
        <p className="small">A keeper is chosen before scores are seen. That time has passed here.</p>
      ) : null}
      {photos.map((photo, index) => (
        <PictureLine
          key={photo.id}
          title={`Picture ${index + 1}`}
          photo={photo}
          puppies={evaluation.puppies}
          may={list.may}
          mayRemove={evaluation.viewer.owner || photo.own}
          busy={keep.isPending || fair.isPending || place.isPending || remove.isPending}
          onOpen={() => onOpen(photo.id)}
          onKeep={() => keep.mutate(to(photo.id))}
          onFair={(is) => fair.mutate({ ...to(photo.id), fair: is })}
          onPlace={(match) => place.mutate({ ...to(photo.id), ...match })}
          onRemove={() => remove.mutate(to(photo.id))}
        />
      ))}
      <Refusal error={keep.error ?? fair.error ?? place.error ?? remove.error} />
      {list.may.add ? (
        <TakeShot queue={queue} puppy={puppy} shot={shot}>
          Take another
        </TakeShot>
      ) : null}
    </div>
  );
}

type PictureLineProps = {
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
function PictureLine({
  title,
  photo,
  puppies,
  may,
  mayRemove,
  busy,
  onOpen,
  onKeep,
  onFair,
  onPlace,
  onRemove,
}: PictureLineProps) {
  const clip = usePhotoAddress(photo.id, 'large');
  return (
    <section className={`stack gap-10 ${styles.picture}`} aria-label={title}>
      {photo.kind === 'clip' ? (
        <video {...clip} controls playsInline preload="metadata" className={styles.video} />
      ) : (
        <button type="button" className={styles.preview} onClick={onOpen} aria-label={`Look closely: ${title}`}>
          <PhotoThumb photo={photo} />
        </button>
      )}
      <div className="stack starts gap-10">
        <h3>
          {title}
          {photo.keeper ? ' · the keeper' : ''}
        </h3>
        <FieldTick
          label="A fair picture of this puppy"
          hint="Stance, light and angle only; nothing about structure."
          ticked={photo.fair}
          disabled={!may.add}
          onChange={onFair}
        />
        <div className="wrap gap-8">
          {photo.kind === 'picture' ? <Button onClick={onOpen}>Look closely</Button> : null}
          {may.keep && !photo.keeper ? (
            <Button busy={busy} onClick={onKeep}>
              Keep this one
            </Button>
          ) : null}
        </div>
        {may.add ? (
          <Disclosure bare words="Another puppy or view">
            <MatchForm
              key={`${photo.puppyId} ${photo.view}`}
              puppies={puppies}
              match={photo}
              words="Move it there"
              onMatch={onPlace}
            />
          </Disclosure>
        ) : null}
        {mayRemove && may.add ? (
          <Confirm words="Remove" about={title} doIt="Remove it for good" busy={busy} tone="quiet" onConfirm={onRemove}>
            <p>The picture and its file go for good, with what was pointed at on it.</p>
          </Confirm>
        ) : null}
      </div>
    </section>
  );
}
