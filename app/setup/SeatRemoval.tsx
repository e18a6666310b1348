'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useTRPC } from '../_data/trpc';
import { Confirm } from '../_parts/Confirm';
import { Refusal } from '../_parts/Refusal';
import { refusalDetails } from '../_parts/refusalDetails';
import type { SetupView } from './setupDraft';

type SeatRemovalProps = { readonly evaluationId: string; readonly seat: SetupView['seats'][number] };

/** For a person who wants her words gone and does not, or cannot, do it from her own device. */
export function SeatRemoval({ evaluationId, seat }: SeatRemovalProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const remove = useMutation(trpc.person.remove.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const done = refusalDetails(remove.error)?.code === 'in-use';
  if (seat.state === 'invited') return null;
  return (
    <>
      <Confirm
        tone="quiet"
        words="Remove this person’s words"
        about={seat.label}
        doIt="Remove them for good"
        busy={remove.isPending}
        onConfirm={() => remove.mutate({ id: evaluationId, seatId: seat.id })}
      >
        <p>
          The seat’s name, interest, notes and reasons are overwritten and its sessions end. Scores stay, under “removed”, and the record says so. What the
          seat had committed to can then no longer be checked. In an anonymous panel notes
          stay as they are, since one that changed would tell whose it was. Backups made before keep the words. This cannot be taken back.
        </p>
      </Confirm>
      <Refusal error={remove.error} words={done ? 'The words of this seat have been removed already.' : null} />
    </>
  );
}
