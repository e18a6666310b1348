'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useTRPC } from '../_data/trpc';
import { Refusal } from '../_parts/Refusal';
import { Confirm } from '../_parts/Confirm';
import type { DecideProps } from './PicksSection';

/** The owner takes back the last pick, on the record, until the record is sealed. */
export function TakeBack({ evaluation, revealed, faces }: DecideProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const takeBack = useMutation(trpc.decision.takeBack.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const { decisions } = revealed.decision;
  const slot = evaluation.slots.findLast(({ id }) => decisions.some((one) => one.slotId === id));
  const last = decisions.find((one) => one.slotId === slot?.id);
  if (!slot || !last || evaluation.phase !== 'deciding' || !evaluation.viewer.owner) return null;
  const what = `place ${faces.place(slot.id)}, ${last.puppyId === null ? 'left empty' : faces.puppyName(last.puppyId)}`;
  return (
    <>
      <Confirm
        key={`${slot.id} ${last.at}`}
        words={`Take back the last pick: ${what}`}
        doIt="Take it back"
        busy={takeBack.isPending}
        onConfirm={() => takeBack.mutate({ id: evaluation.id })}
      >
        <p>The place opens again. That it was picked and taken back stays in the record.</p>
      </Confirm>
      <Refusal error={takeBack.error} />
    </>
  );
}
