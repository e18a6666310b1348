'use client';

import { useState, type DragEvent } from 'react';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { PhotoList } from '#lib/contract/photo';
import { matchFrom, plannedMatches, rematch, type Match, type SequenceOrder } from '#lib/photo/matchSequence';
import { shots } from '#lib/photo/shot';
import type { PhotoQueue } from '../_data/photoQueue';
import { Button } from '../_parts/Button';
import { counted } from '../_parts/counted';
import { bringPictures } from './bringPictures';
import { DroppedPictures } from './DroppedPictures';
import styles from './Photos.module.css';
import { SequenceForm } from './SequenceForm';

type Props = { readonly evaluation: EvaluationView; readonly list: PhotoList; readonly queue: PhotoQueue; readonly onDone: () => void };

/** A whole card of pictures at once: put in order of taking, matched along a sequence, corrected by tap, then queued. */
export function AddMany({ evaluation, list, queue, onDone }: Props) {
  const puppies = evaluation.puppies.filter((puppy) => !puppy.withdrawn);
  const [order, setOrder] = useState<SequenceOrder>('puppy by puppy');
  const [views, setViews] = useState(list.shots.filter((shot) => !shots[shot].clip));
  const [files, setFiles] = useState<readonly File[]>([]);
  const [matches, setMatches] = useState<readonly Match[]>([]);
  const [done, setDone] = useState<number | null>(null);
  const planOf = (asked: SequenceOrder, wanted: typeof views) => plannedMatches({ puppyIds: puppies.map((puppy) => puppy.id), views: wanted, order: asked });
  const take = (chosen: readonly File[]) => {
    const sorted = [...files, ...chosen].toSorted((one, other) => one.lastModified - other.lastModified || one.name.localeCompare(other.name, 'en', { numeric: true }));
    setFiles(sorted);
    setMatches(matchFrom(planOf(order, views), 0, sorted.length));
  };
  const plan = (asked: SequenceOrder, wanted: typeof views) => {
    setOrder(asked);
    setViews(wanted);
    setMatches(matchFrom(planOf(asked, wanted), 0, files.length));
  };
  const send = async () => {
    setDone(0);
    const seat = evaluation.viewer.seatId ?? 'owner';
    const pictures = files.flatMap((file, index) => (matches[index] ? [{ file, match: matches[index] }] : []));
    await bringPictures({ queue, evaluationId: evaluation.id, seat }, pictures, setDone);
    onDone();
  };
  return (
    <section className={styles.many} aria-label="Add many pictures">
      <DropPlace onFiles={take} />
      <SequenceForm order={order} views={views} shots={list.shots} onPlan={plan} />
      {files.length > 0 && (
        <>
          <p>
            In order of taking. Tap one that is matched wrongly; the others can go on from there. Then send them.
          </p>
          <DroppedPictures files={files} matches={matches} puppies={puppies} onMatch={(change) => setMatches(rematch(matches, planOf(order, views), change))} />
          <p className={styles.sticky}>
            <Button tone="main" busy={done !== null} onClick={() => void send()}>
              {done === null ? `Send ${counted(files.length, 'picture')}` : `Making them small: ${done} of ${files.length}`}
            </Button>
            {done === null && <Button onClick={() => setFiles([])}>Start again</Button>}
          </p>
        </>
      )}
    </section>
  );
}

function DropPlace({ onFiles }: { readonly onFiles: (files: readonly File[]) => void }) {
  const [over, setOver] = useState(false);
  const drop = (event: DragEvent) => {
    event.preventDefault();
    setOver(false);
    onFiles([...event.dataTransfer.files]);
  };
  return (
    <label
      className={`${styles.drop} ${over ? styles.over : ''}`}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={drop}
    >
      <b>Choose pictures</b>
      <span className="small">or drop them here, as many as you like</span>
      <input
        type="file"
        multiple
        accept="image/*,video/mp4,video/webm"
        aria-label="Choose pictures"
        onChange={(event) => {
          onFiles([...(event.target.files ?? [])]);
          event.target.value = '';
        }}
      />
    </label>
  );
}
