'use client';

import { type DragEvent, useEffect, useMemo, useState } from 'react';
import type { PuppyFace } from '#lib/contract/evaluationView';
import type { PhotoList } from '#lib/contract/photo';
import {
  type Match,
  matchFrom,
  plannedMatches,
  rematch,
  type SequenceOrder,
  type ShotKey,
  shots,
} from '#lib/photo/shot';
import type { PhotoQueue } from '../_data/photoQueue';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from '../_parts/Button';
import { Disclosure } from '../_parts/Disclosure';
import { Drawer } from '../_parts/Drawer';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldTick } from '../_parts/FieldTick';
import { counted } from '../_parts/textWords';
import { MatchForm } from './MatchForm';
import { bringPictures } from './bringPictures';
import styles from './photos.module.css';

type Props = { readonly list: PhotoList; readonly queue: PhotoQueue; readonly onDone: () => void };

/** A whole card of pictures at once: put in order of taking, matched along a sequence, corrected by tap, then queued. */
export function AddMany({ list, queue, onDone }: Props) {
  const evaluation = useEvaluation();
  const puppies = evaluation.puppies.filter((puppy) => !puppy.withdrawn);
  const [order, setOrder] = useState<SequenceOrder>('puppy by puppy');
  const [views, setViews] = useState(list.shots.filter((shot) => !shots[shot].clip));
  const [files, setFiles] = useState<readonly File[]>([]);
  const [matches, setMatches] = useState<readonly Match[]>([]);
  const [done, setDone] = useState<number | null>(null);
  const planOf = (asked: SequenceOrder, wanted: typeof views) =>
    plannedMatches({ puppyIds: puppies.map((puppy) => puppy.id), views: wanted, order: asked });
  const take = (chosen: readonly File[]) => {
    const sorted = [...files, ...chosen].toSorted(
      (one, other) =>
        one.lastModified - other.lastModified || one.name.localeCompare(other.name, 'en', { numeric: true }),
    );
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
    <section className="stack gap-20" aria-label="Add many pictures">
      <DropPlace onFiles={take} />
      <SequenceForm order={order} views={views} shots={list.shots} onPlan={plan} />
      {files.length > 0 ? (
        <>
          <p>In order of taking. Tap one that is matched wrongly; the others can go on from there. Then send them.</p>
          <DroppedPictures
            files={files}
            matches={matches}
            puppies={puppies}
            onMatch={(change) => setMatches(rematch(matches, planOf(order, views), change))}
          />
          <p className={styles.sticky}>
            <Button tone="main" busy={done !== null} onClick={() => void send()}>
              {done === null
                ? `Send ${counted(files.length, 'picture')}`
                : `Making them small: ${done} of ${files.length}`}
            </Button>
            {done === null ? <Button onClick={() => setFiles([])}>Start again</Button> : null}
          </p>
        </>
      ) : null}
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
      className={`grid gap-4 ${styles.drop} ${over ? styles.over : ''}`}
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
        className="over"
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

type SequenceFormProps = {
  readonly order: SequenceOrder;
  readonly views: readonly ShotKey[];
  readonly shots: readonly ShotKey[];
  readonly onPlan: (order: SequenceOrder, views: ShotKey[]) => void;
};

const orders = [
  { key: 'puppy by puppy', words: 'Puppy by puppy: every view of one, then the next' },
  { key: 'view by view', words: 'View by view: one view of every puppy, then the next view' },
] as const;

/** How the pictures were taken: the order, and which views. */
function SequenceForm({ order, views, shots: wanted, onPlan }: SequenceFormProps) {
  return (
    <div className="stack starts gap-10">
      <FieldChoice<SequenceOrder>
        label="They were taken"
        value={order}
        options={orders}
        onChange={(asked) => onPlan(asked, [...views])}
      />
      <Disclosure
        bare
        words={`Views taken, in this order: ${views.map((view) => shots[view].name.toLowerCase()).join(', ')}`}
      >
        <div className={`wrap ${styles.listForm}`}>
          {wanted.map((shot) => (
            <FieldTick
              key={shot}
              label={shots[shot].name}
              ticked={views.includes(shot)}
              onChange={(on) =>
                onPlan(
                  order,
                  wanted.filter((key) => (key === shot ? on : views.includes(key))),
                )
              }
            />
          ))}
        </div>
      </Disclosure>
    </div>
  );
}

type DroppedPicturesProps = {
  readonly files: readonly File[];
  readonly matches: readonly Match[];
  readonly puppies: readonly PuppyFace[];
  readonly onMatch: (change: { readonly at: number; readonly match: Match; readonly onwards: boolean }) => void;
};

/** The pictures as they were dropped, each with whose it is taken to be. */
function DroppedPictures({ files, matches, puppies, onMatch }: DroppedPicturesProps) {
  const [at, edit] = useState<number | null>(null);
  const addresses = useMemo(() => files.map((file) => URL.createObjectURL(file)), [files]);
  useEffect(() => () => addresses.forEach((address) => URL.revokeObjectURL(address)), [addresses]);
  const name = (match: Match | undefined) => puppies.find((puppy) => puppy.id === match?.puppyId)?.name ?? 'nobody';
  const edited = at === null ? undefined : matches[at];
  return (
    <>
      <ol className={`list grid gap-10 ${styles.dropped}`}>
        {files.map((file, index) => {
          const match = matches[index];
          const words = match ? `${name(match)}, ${shots[match.view].name}` : 'not matched';
          return (
            <li key={`${file.name} ${file.lastModified} ${index}`}>
              <button
                type="button"
                className={styles.tile}
                onClick={() => edit(index)}
                aria-label={`Picture ${index + 1}, ${file.name}: ${words}`}
              >
                {file.type.startsWith('video/') ? (
                  <span className={styles.clip}>clip</span>
                ) : (
                  <img src={addresses[index]} alt="" loading="lazy" />
                )}
                <span className={`stack ${styles.matched}`}>
                  <b>{name(match)}</b>
                  <span className="small">{match ? shots[match.view].name : ''}</span>
                </span>
              </button>
            </li>
          );
        })}
      </ol>
      {at !== null && edited ? (
        <Drawer title={`Picture ${at + 1}`} onClose={() => edit(null)}>
          {addresses[at] !== undefined ? <img src={addresses[at]} alt="" className={styles.large} /> : null}
          <MatchForm
            puppies={puppies}
            match={edited}
            words="It is this one"
            mayGoOn
            onMatch={(match, onwards) => {
              onMatch({ at, match, onwards });
              edit(null);
            }}
          />
        </Drawer>
      ) : null}
    </>
  );
}
