'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import type { EvaluationView } from '#lib/contract/evaluationView';
import type { PhotoFace, Pointer } from '#lib/contract/photo';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import styles from './CloseUp.module.css';
import { heldWords, seatWords } from './seatWords';

type Props = { readonly evaluation: EvaluationView; readonly photo: PhotoFace; readonly pointers: readonly Pointer[] };

/** The marks on a picture in words. */
export function MarkList({ evaluation, photo, pointers }: Props) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const takeBack = useMutation(trpc.photo.unpoint.mutationOptions({ onSuccess: () => queries.invalidateQueries(trpc.photo.marks.queryFilter({ id: evaluation.id })) }));
  const held = heldWords(evaluation, 'marks');
  const here = pointers.filter((pointer) => pointer.photoId === photo.id);
  return (
    <>
      {held === null ? null : <p className="small">{held}</p>}
      <ul className={styles.lines} aria-label="Marks on this picture">
        {here.map((pointer) => {
          const by = seatWords(evaluation, pointer.seat);
          const words = `${by === '' ? 'You' : by}: ${pointer.note === '' ? `a ${pointer.kind}` : `${pointer.note} (${pointer.kind})`}${pointer.held && evaluation.revealed ? ', only you see it yet' : ''}${pointer.blind ? '' : ', not blind'}`;
          return (
            <li key={pointer.id}>
              <span>{words}</span>
              {by === '' && (
                <Button tone="quiet" busy={takeBack.isPending} onClick={() => takeBack.mutate({ id: evaluation.id, pointerId: pointer.id })}>
                  Take back<span className="aloud">: {words}</span>
                </Button>
              )}
            </li>
          );
        })}
      </ul>
      <Refusal error={takeBack.error} />
    </>
  );
}
