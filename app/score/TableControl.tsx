'use client';

import { useMutation } from '@tanstack/react-query';
import { cautions } from '#lib/sheet/cautions';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Button } from '../_parts/Button';
import { CollarChip } from '../_parts/CollarChip';
import { Disclosure } from '../_parts/Disclosure';
import { Refusal } from '../_parts/Refusal';
import { RoomCautions } from '../_parts/CautionNote';
import styles from './score.module.css';
import type { RoundView } from './useScoring';
import { faceOf } from './useShowing';
import { WithdrawForm } from './WithdrawForm';

type Props = { readonly round: RoundView; readonly onMoved?: (showingId: string) => void };

/** For who leads: which puppy is on the table. Devices follow at once, but for a seat in the midst of a puppy. */
export function TableControl({ round, onMoved }: Props) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const move = useMutation(trpc.evaluation.moveTable.mutationOptions());
  const faces = round.showings.flatMap(({ id }, place) => {
    const face = faceOf({ evaluation, round }, id);
    return face && !face.puppy.withdrawn ? [{ ...face, place }] : [];
  });
  const here = round.showings.findIndex((one) => one.id === round.tableShowingId);
  const put = (showingId: string) =>
    move.mutate({ id: evaluation.id, showingId }, { onSuccess: () => onMoved?.(showingId) });
  const before = faces.findLast((face) => face.place < here);
  const after = faces.find((face) => face.place > here);
  return (
    <div className="stack gap-16">
      <p className={styles.now}>
        On the table: {faces.find((face) => face.place === here)?.puppy.name ?? 'nobody'}. Choose who comes next;
        devices follow, those in the midst of a puppy when they have gone on.
      </p>
      <div className={`tall grid gap-8 ${styles.pair}`}>
        <Button
          about={before?.showing.id}
          disabled={!before}
          busy={move.isPending}
          onClick={() => before && put(before.showing.id)}
        >
          {before ? `Back to ${before.puppy.name}` : 'This is the first'}
        </Button>
        <Button
          tone="main"
          about={after?.showing.id}
          disabled={!after}
          busy={move.isPending}
          onClick={() => after && put(after.showing.id)}
        >
          {after ? `On to ${after.puppy.name}` : 'This is the last'}
        </Button>
      </div>
      <Refusal error={move.error} />
      <p>{cautions.fear.text}</p>
      <Disclosure words="For everyone in the room">
        <RoomCautions />
      </Disclosure>
      <ul className={`list grid gap-8 ${styles.all}`} aria-label="Put on the table">
        {faces.map(({ showing, puppy }) => (
          <li key={showing.id}>
            <button
              type="button"
              className="key row gap-10 full"
              aria-pressed={showing.id === round.tableShowingId}
              onClick={() => put(showing.id)}
            >
              <CollarChip collar={puppy.collar} words={false} size={22} />
              <span>{puppy.name}</span>
            </button>
          </li>
        ))}
      </ul>
      {evaluation.viewer.owner ? <WithdrawForm /> : null}
    </div>
  );
}
