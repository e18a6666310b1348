'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { PuppyFace } from '#lib/contract/evaluationView';
import type { PhotoList } from '#lib/contract/photo';
import { type ShotKey, shotKeys, shots as shotCatalogue, shots } from '#lib/photo/shot';
import type { PhotoQueue } from '../_data/photoQueue';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from '../_parts/Button';
import { CollarChip } from '../_parts/CollarChip';
import { Disclosure } from '../_parts/Disclosure';
import { Drawer } from '../_parts/Drawer';
import { FieldTick } from '../_parts/FieldTick';
import { Refusal } from '../_parts/Refusal';
import { keeperOf, PhotoThumb } from './PhotoThumb';
import { ShotPanel } from './ShotPanel';
import { TakeShot } from './TakeShot';
import styles from './photos.module.css';

type SheetProps = { readonly list: PhotoList; readonly queue: PhotoQueue; readonly onOpen: (photoId: string) => void };

/** Every wanted view of every puppy: a picture where it is taken, an open place where it is missing. */
export function ContactSheet({ list, queue, onOpen }: SheetProps) {
  const evaluation = useEvaluation();
  const [cell, open] = useState<{ readonly puppy: PuppyFace; readonly shot: ShotKey } | null>(null);
  const puppies = evaluation.puppies.filter((puppy) => !puppy.withdrawn);
  const taken = puppies.reduce((sum, puppy) => sum + countTaken(list, puppy.id), 0);
  return (
    <div className="stack gap-20">
      <p>
        {taken} of {puppies.length * list.shots.length} shots taken. Tap an open place to take it, a picture to see and
        choose.
      </p>
      {list.may.list ? <ShotListForm evaluationId={evaluation.id} shots={list.shots} /> : null}
      {puppies.map((puppy) => (
        <section key={puppy.id} aria-label={puppy.name} className="stack gap-10">
          <div className={`wrap ${styles.puppyHead}`}>
            <h2>{puppy.name}</h2>
            <CollarChip collar={puppy.collar} />
            <span className="small figures">
              {countTaken(list, puppy.id)} of {list.shots.length}
            </span>
          </div>
          <ul className={`list grid gap-10 ${styles.tiles}`}>
            {list.shots.map((shot) => (
              <li key={shot}>
                <ShotTile list={list} queue={queue} puppy={puppy} shot={shot} onOpen={() => open({ puppy, shot })} />
              </li>
            ))}
          </ul>
        </section>
      ))}
      {cell ? (
        <Drawer title={`${cell.puppy.name}: ${shotCatalogue[cell.shot].name}`} onClose={() => open(null)}>
          <ShotPanel list={list} queue={queue} puppy={cell.puppy} shot={cell.shot} onOpen={onOpen} />
        </Drawer>
      ) : null}
    </div>
  );
}

function countTaken({ photos, shots }: PhotoList, puppyId: string): number {
  return shots.filter((shot) => photos.some((photo) => photo.puppyId === puppyId && photo.view === shot)).length;
}

/** The owner's choice of views, folded away until it is wanted. */
function ShotListForm({
  evaluationId,
  shots: wanted,
}: {
  readonly evaluationId: string;
  readonly shots: readonly ShotKey[];
}) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [chosen, choose] = useState<readonly ShotKey[]>(wanted);
  const save = useMutation(
    trpc.photo.saveList.mutationOptions({
      onSuccess: () => queries.invalidateQueries(trpc.photo.list.queryFilter({ id: evaluationId })),
    }),
  );
  return (
    <Disclosure bare words="Change the shot list">
      <fieldset className={`wrap ${styles.listForm}`}>
        <legend className="small">Views wanted of each puppy. Pictures taken already stay.</legend>
        {shotKeys.map((shot) => (
          <FieldTick
            key={shot}
            label={shots[shot].name}
            ticked={chosen.includes(shot)}
            onChange={(on) => choose(shotKeys.filter((key) => (key === shot ? on : chosen.includes(key))))}
          />
        ))}
      </fieldset>
      <Refusal error={save.error} />
      <Button
        busy={save.isPending}
        disabled={chosen.length === 0}
        onClick={() => save.mutate({ id: evaluationId, shots: [...chosen] })}
      >
        Save the list
      </Button>
    </Disclosure>
  );
}

type Props = {
  readonly list: PhotoList;
  readonly queue: PhotoQueue;
  readonly puppy: PuppyFace;
  readonly shot: ShotKey;
  readonly onOpen: () => void;
};

/** One place of the shot list. */
function ShotTile({ list, queue, puppy, shot, onOpen }: Props) {
  const { name, clip } = shots[shot];
  const photo = keeperOf(list.photos, puppy.id, shot);
  const count = list.photos.filter((one) => one.puppyId === puppy.id && one.view === shot).length;
  if (!photo) {
    return list.may.add ? (
      <TakeShot queue={queue} puppy={puppy} shot={shot} tile>
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
  const words = [
    count > 1 ? `${count} pictures` : '',
    photo.keeper ? 'keeper chosen' : '',
    photo.fair ? '' : 'not a fair picture',
  ].filter((one) => one !== '');
  return (
    <button
      type="button"
      className={styles.tile}
      onClick={onOpen}
      aria-label={`${puppy.name}, ${name}: ${['taken', ...words].join(', ')}`}
    >
      {photo.kind === 'clip' ? <span className={styles.clip}>clip</span> : <PhotoThumb photo={photo} lazy />}
      <span className={`row ${styles.tileFoot}`}>
        <svg
          width="13"
          height="13"
          viewBox="0 0 13 13"
          aria-hidden="true"
          fill="none"
          stroke="currentColor"
          strokeWidth="2.2"
        >
          <path d="M2 7.5 5 10.5 11 3" />
        </svg>
        <span className={styles.tileName}>{name}</span>
        {count > 1 ? <span className="small figures">{count}</span> : null}
      </span>
    </button>
  );
}
