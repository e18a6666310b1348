'use client';

import { useState } from 'react';
import type { EvaluationView, PuppyFace } from '#lib/contract/evaluationView';
import type { PhotoList } from '#lib/contract/photo';
import type { ShotKey } from '#lib/photo/shot';
import type { PhotoQueue } from '../_data/photoQueue';
import { CollarChip } from '../_parts/CollarChip';
import { Drawer } from '../_parts/Drawer';
import { shots as shotCatalogue } from '#lib/photo/shot';
import styles from './Photos.module.css';
import { ShotListForm } from './ShotListForm';
import { ShotPanel } from './ShotPanel';
import { ShotTile } from './ShotTile';

export type SheetProps = { readonly evaluation: EvaluationView; readonly list: PhotoList; readonly queue: PhotoQueue; readonly onOpen: (photoId: string) => void };

/** Every wanted view of every puppy: a picture where it is taken, an open place where it is missing. */
export function ContactSheet({ evaluation, list, queue, onOpen }: SheetProps) {
  const [cell, open] = useState<{ readonly puppy: PuppyFace; readonly shot: ShotKey } | null>(null);
  const puppies = evaluation.puppies.filter((puppy) => !puppy.withdrawn);
  const taken = puppies.reduce((sum, puppy) => sum + countTaken(list, puppy.id), 0);
  return (
    <div className={styles.sheet}>
      <p>
        {taken} of {puppies.length * list.shots.length} shots taken. Tap an open place to take it, a picture to see and choose.
      </p>
      {list.may.list && <ShotListForm evaluationId={evaluation.id} shots={list.shots} />}
      {puppies.map((puppy) => (
        <section key={puppy.id} aria-label={puppy.name} className={styles.puppy}>
          <div className={styles.puppyHead}>
            <h2>{puppy.name}</h2>
            <CollarChip collar={puppy.collar} />
            <span className="small figures">
              {countTaken(list, puppy.id)} of {list.shots.length}
            </span>
          </div>
          <ul className={styles.tiles}>
            {list.shots.map((shot) => (
              <li key={shot}>
                <ShotTile evaluation={evaluation} list={list} queue={queue} puppy={puppy} shot={shot} onOpen={() => open({ puppy, shot })} />
              </li>
            ))}
          </ul>
        </section>
      ))}
      {cell && (
        <Drawer title={`${cell.puppy.name}: ${shotCatalogue[cell.shot].name}`} onClose={() => open(null)}>
          <ShotPanel evaluation={evaluation} list={list} queue={queue} puppy={cell.puppy} shot={cell.shot} onOpen={onOpen} />
        </Drawer>
      )}
    </div>
  );
}

function countTaken({ photos, shots }: PhotoList, puppyId: string): number {
  return shots.filter((shot) => photos.some((photo) => photo.puppyId === puppyId && photo.view === shot)).length;
}
