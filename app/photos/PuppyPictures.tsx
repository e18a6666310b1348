'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { type ShotKey, shots } from '#lib/photo/shot';
import { wholePicture } from '#lib/photo/stageView';
import type { View } from '#lib/sheet/criterion';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { keeperOf } from './PhotoThumb';
import styles from './photos.module.css';
import { SidePicture } from './SidePicture';

type Props = {
  readonly puppyId: string;
  /** How the puppy is called here. */
  readonly name: string;
  /** Where the question is looked at from. */
  readonly view: View | null;
};

/** Which pictures show what a question asks about, the best first. */
const shotsFor: Readonly<Record<View, readonly ShotKey[]>> = {
  side: ['left-side', 'right-side'],
  front: ['front'],
  rear: ['rear'],
  above: ['above'],
  hands: ['left-side', 'right-side', 'front'],
  head: ['head-side', 'head-front', 'bite'],
};

/** The pictures of one puppy beside a question: the view it asks about first, every other a tap away. */
export function PuppyPictures({ puppyId, name, view }: Props) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const list = useQuery(trpc.photo.list.queryOptions({ id: evaluation.id }));
  const marks = useQuery(trpc.photo.marks.queryOptions({ id: evaluation.id }));
  const [stage, move] = useState(wholePicture);
  const [chosen, choose] = useState<ShotKey | null>(null);
  const pictures = (list.data?.photos ?? []).filter((photo) => photo.puppyId === puppyId && photo.kind === 'picture');
  const there = [...new Set(pictures.map((photo) => photo.view))];
  const best = (view ? shotsFor[view] : []).find((shot) => there.includes(shot)) ?? there[0];
  const shot = chosen !== null && there.includes(chosen) ? chosen : best;
  if (!list.data) return null;
  if (shot === undefined) return <p className="small">There is no picture of {name} yet.</p>;
  return (
    <div className={`stack gap-8 ${styles.pictures}`}>
      <div role="group" aria-label={`Pictures of ${name}`} className={`flex gap-6 ${styles.shots}`}>
        {there.map((key) => (
          <button
            key={key}
            type="button"
            className={`key ${styles.shot}`}
            aria-pressed={key === shot}
            onClick={() => {
              choose(key);
              move(wholePicture);
            }}
          >
            {shots[key].name}
          </button>
        ))}
      </div>
      <SidePicture
        name={name}
        shotName={shots[shot].name}
        photo={keeperOf(pictures, puppyId, shot)}
        view={stage}
        onView={move}
        mirrored={false}
        guides={false}
        pointers={marks.data?.pointers ?? []}
        seats={evaluation.seats}
        own={evaluation.viewer.seatId}
      />
    </div>
  );
}
