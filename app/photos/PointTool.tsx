'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { PhotoFace, Pointer, PointerInput } from '#lib/contract/photo';
import { photoLimits } from '#lib/photo/photoFile';
import type { Point } from '#lib/photo/pinhole';
import { freshId } from '../_data/freshId';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';
import { Cross, PointerMark } from './PointerMark';
import { Stage } from './Stage';
import styles from './photos.module.css';
import { heldWords, seatWords, type ToolProps } from './useMarks';
import { usePlacing } from './usePlacing';

const kinds = [
  { key: 'arrow', words: 'Arrow' },
  { key: 'ring', words: 'Ring' },
  { key: 'line', words: 'Line' },
] as const;
const asks: Readonly<Record<PointerInput['kind'], readonly [string, string]>> = {
  arrow: ['where the arrow starts', 'what it points at'],
  ring: ['the middle of the ring', 'its edge'],
  line: ['where the line starts', 'where it ends'],
};

/** Points at a place with our own plain marks. Before reveal nobody but this seat sees them. */
export function PointTool({ photo, label, stage, marks }: ToolProps) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [kind, choose] = useState<PointerInput['kind']>('arrow');
  const [places, put] = useState<readonly Point[]>([]);
  const [note, setNote] = useState('');
  const placing = usePlacing((at) => put(places.length === 2 ? [at] : [...places, at]), stage.mirrored);
  const [from, to] = places;
  const keep = useMutation(
    trpc.photo.point.mutationOptions({
      onSuccess: () => {
        put([]);
        setNote('');
        return queries.invalidateQueries(trpc.photo.marks.queryFilter({ id: evaluation.id }));
      },
    }),
  );
  const drawn = from && to ? { kind, from, to, note } : null;
  return (
    <div className={`stack gap-16 tops ${styles.tool}`}>
      <Stage photo={photo} label={label} {...stage} onTap={placing.onTap} onKey={placing.onKey}>
        {marks.pointers
          .filter((pointer) => pointer.photoId === photo.id)
          .map((pointer) => (
            <PointerMark
              key={pointer.id}
              pointer={pointer}
              blind={pointer.blind}
              size={photo}
              zoom={stage.view.zoom}
              mirrored={stage.mirrored}
              by={seatWords(evaluation, pointer.seat)}
            />
          ))}
        {drawn ? (
          <PointerMark pointer={drawn} size={photo} zoom={stage.view.zoom} mirrored={stage.mirrored} by="" />
        ) : null}
        {from && !drawn ? <Cross at={from} size={photo} zoom={stage.view.zoom} set /> : null}
        <Cross at={placing.cross} size={photo} zoom={stage.view.zoom} />
      </Stage>
      <div className="stack gap-12">
        <FieldChoice label="Mark" value={kind} options={kinds} onChange={choose} />
        <p role="status">
          {drawn
            ? 'Add a short note if it helps, then keep the mark.'
            : `Tap ${asks[kind][from ? 1 : 0]}. Keys: arrows move the cross, Enter sets it.`}
        </p>
        <FieldText label="Short note" value={note} maxLength={photoLimits.note} onChange={setNote} />
        <div className="wrap centred gap-8">
          <Button
            tone="main"
            disabled={!drawn}
            busy={keep.isPending}
            onClick={() =>
              drawn && keep.mutate({ id: evaluation.id, photoId: photo.id, pointerId: freshId(), pointer: drawn })
            }
          >
            Keep this mark
          </Button>
          <Button disabled={places.length === 0} onClick={() => put([])}>
            Begin again
          </Button>
        </div>
        <Refusal error={keep.error} />
        <MarkList photo={photo} pointers={marks.pointers} />
      </div>
    </div>
  );
}

type Props = { readonly photo: PhotoFace; readonly pointers: readonly Pointer[] };

/** The marks on a picture in words. */
function MarkList({ photo, pointers }: Props) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const takeBack = useMutation(
    trpc.photo.unpoint.mutationOptions({
      onSuccess: () => queries.invalidateQueries(trpc.photo.marks.queryFilter({ id: evaluation.id })),
    }),
  );
  const held = heldWords(evaluation, 'marks');
  const here = pointers.filter((pointer) => pointer.photoId === photo.id);
  return (
    <>
      {held === null ? null : <p className="small">{held}</p>}
      <ul className={`list lined stack gap-4 ${styles.lines}`} aria-label="Marks on this picture">
        {here.map((pointer) => {
          const by = seatWords(evaluation, pointer.seat);
          const words = `${by === '' ? 'You' : by}: ${pointer.note === '' ? `a ${pointer.kind}` : `${pointer.note} (${pointer.kind})`}${pointer.held && evaluation.revealed ? ', only you see it yet' : ''}${pointer.blind ? '' : ', not blind'}`;
          return (
            <li key={pointer.id}>
              <span>{words}</span>
              {by === '' ? (
                <Button
                  tone="quiet"
                  busy={takeBack.isPending}
                  onClick={() => takeBack.mutate({ id: evaluation.id, pointerId: pointer.id })}
                >
                  Take back<span className="aloud">: {words}</span>
                </Button>
              ) : null}
            </li>
          );
        })}
      </ul>
      <Refusal error={takeBack.error} />
    </>
  );
}
