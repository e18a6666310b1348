'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useTRPC } from '../_data/trpc';
import { Confirm } from '../_parts/Confirm';
import { Refusal } from '../_parts/Refusal';

type SeatEndProps = { readonly ids: { readonly id: string; readonly seatId: string }; readonly label: string };

/** Signs a seat out on every device of its. */
export function SeatEnd({ ids, label }: SeatEndProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const end = useMutation(trpc.setup.endSeat.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  return (
    <>
      <Confirm tone="quiet" words="End its sessions" about={label} doIt="Sign this seat out" busy={end.isPending} onConfirm={() => end.mutate(ids)}>
        <p>Every device of this seat is signed out at once. What it entered stays. To come back, the seat has to be issued again.</p>
      </Confirm>
      <Refusal error={end.error} />
    </>
  );
}
