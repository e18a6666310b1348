'use client';

import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { PhotoFace, PhotoMarks } from '#lib/contract/photo';
import { type ShotKey, shots, shots as shotCatalogue } from '#lib/photo/shot';
import { type StageView, wholePicture } from '#lib/photo/stageView';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldTick } from '../_parts/FieldTick';
import { Loading } from '../_parts/Loading';
import { Refusal } from '../_parts/Refusal';
import { SidePicture } from './SidePicture';
import { keeperOf } from './PhotoThumb';
import styles from './photos.module.css';

type Props = {
  /** Whose pictures, from left to right. */
  readonly puppyIds: readonly string[];
  readonly startView?: ShotKey;
  /** How a puppy is called here: its name, unless the pictures are looked at without names. */
  readonly nameOf?: (puppyId: string) => string;
};

/** The same view of two or more puppies at equal size; what is moved in one moves in all, unless they are unlinked. */
export function SideBySide({ puppyIds, startView = 'left-side', nameOf }: Props) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const list = useQuery(trpc.photo.list.queryOptions({ id: evaluation.id }));
  const marks = useQuery(trpc.photo.marks.queryOptions({ id: evaluation.id }));
  if (!list.data) return list.error === null ? <Loading what="the pictures" /> : <Refusal error={list.error} />;
  const pictures = list.data.photos.filter((photo) => photo.kind === 'picture' && puppyIds.includes(photo.puppyId));
  if (pictures.length === 0) return <p className="small">There is no picture of these puppies yet.</p>;
  const name = nameOf ?? ((id: string) => evaluation.puppies.find((puppy) => puppy.id === id)?.name ?? 'a puppy');
  return <Sides puppyIds={puppyIds} pictures={pictures} marks={marks.data} startView={startView} nameOf={name} />;
}

type SidesProps = Required<Omit<Props, 'startView'>> & {
  readonly startView: ShotKey;
  readonly pictures: readonly PhotoFace[];
  readonly marks: PhotoMarks | undefined;
};

function Sides({ puppyIds, pictures, marks, startView, nameOf }: SidesProps) {
  const evaluation = useEvaluation();
  const taken = [...new Set(pictures.map((photo) => photo.view))];
  const [chosen, choose] = useState<ShotKey>(startView);
  const shot = taken.includes(chosen) ? chosen : (taken[0] ?? chosen);
  const [order, setOrder] = useState(puppyIds);
  const [linked, link] = useState(true);
  const [guides, guide] = useState(false);
  const [mirrored, mirror] = useState(false);
  const [views, setViews] = useState<Readonly<Record<string, StageView>>>({});
  const sides = [...order.filter((id) => puppyIds.includes(id)), ...puppyIds.filter((id) => !order.includes(id))];
  const show = (puppyId: string) => (view: StageView) =>
    setViews((before) => (linked ? Object.fromEntries(sides.map((id) => [id, view])) : { ...before, [puppyId]: view }));
  return (
    <section className="stack gap-12" aria-label={`Side by side: ${sides.map(nameOf).join(' and ')}`}>
      <SideControls
        shot={shot}
        shots={taken}
        onShot={choose}
        toggles={[
          { words: 'Move together', on: linked, set: link },
          { words: 'Level and upright lines', on: guides, set: guide },
          { words: 'Mirror', on: mirrored, set: mirror },
        ]}
        onSwap={sides.length > 1 ? () => setOrder([...sides.slice(1), ...sides.slice(0, 1)]) : null}
        onWhole={() => setViews({})}
      />
      <div className={`grid gap-12 ${styles.row}`} data-count={sides.length}>
        {sides.map((id) => (
          <SidePicture
            key={id}
            name={nameOf(id)}
            shotName={shots[shot].name}
            photo={keeperOf(pictures, id, shot)}
            view={views[id] ?? wholePicture}
            onView={show(id)}
            mirrored={mirrored}
            guides={guides}
            pointers={marks?.pointers ?? []}
            seats={evaluation.seats}
            own={evaluation.viewer.seatId}
          />
        ))}
      </div>
      <p className="small">
        On the keyboard: Tab to a picture, + and − to come closer, arrows to move, 0 for the whole. Fingers: pinch and
        drag.
      </p>
    </section>
  );
}

type Toggle = { readonly words: string; readonly on: boolean; readonly set: (on: boolean) => void };

type SideControlsProps = {
  readonly shot: ShotKey;
  readonly shots: readonly ShotKey[];
  readonly onShot: (shot: ShotKey) => void;
  readonly toggles: readonly Toggle[];
  /** Null with one picture only. */
  readonly onSwap: (() => void) | null;
  readonly onWhole: () => void;
};

/** Which view, and how the pictures stand beside each other. */
function SideControls({ shot, shots, onShot, toggles, onSwap, onWhole }: SideControlsProps) {
  return (
    <div className={`wrap ${styles.controls}`}>
      <FieldChoice
        label="View"
        value={shot}
        options={shots.map((key) => ({ key, words: shotCatalogue[key].name }))}
        onChange={onShot}
      />
      {toggles.map(({ words, on, set }) => (
        <FieldTick key={words} label={words} ticked={on} onChange={set} />
      ))}
      <div className="wrap gap-8">
        {onSwap ? <Button onClick={onSwap}>Swap places</Button> : null}
        <Button onClick={onWhole}>Whole pictures</Button>
      </div>
    </div>
  );
}
