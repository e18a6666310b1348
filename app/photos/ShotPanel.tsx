'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { EvaluationView, PuppyFace } from '#lib/contract/evaluationView';
import type { PhotoList } from '#lib/contract/photo';
import { shots, type ShotKey } from '#lib/photo/shot';
import type { PhotoQueue } from '../_data/photoQueue';
import { useTRPC } from '../_data/trpc';
import { Refusal } from '../_parts/Refusal';
import { PictureLine } from './PictureLine';
import styles from './Photos.module.css';
import { TakeShot } from './TakeShot';

type Props = {
  readonly evaluation: EvaluationView;
  readonly list: PhotoList;
  readonly queue: PhotoQueue;
  readonly puppy: PuppyFace;
  readonly shot: ShotKey;
  readonly onOpen: (photoId: string) => void;
};

/** All pictures of one view of one puppy: which is kept, which is fair, whose it really is. */
export function ShotPanel({ evaluation, list, queue, puppy, shot, onOpen }: Props) {
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
    <div className={styles.panel}>
      <p className="small">{shots[shot].how}</p>
      {!list.may.keep && <p className="small">A keeper is chosen before scores are seen. That time has passed here.</p>}
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
      {list.may.add && (
        <TakeShot evaluation={evaluation} queue={queue} puppy={puppy} shot={shot}>
          Take another
        </TakeShot>
      )}
    </div>
  );
}
