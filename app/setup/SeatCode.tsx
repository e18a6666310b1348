'use client';

import { useMutation } from '@tanstack/react-query';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import { refusalDetails } from '../_data/refusalText';
import { ShownCode } from '../_parts/ShownCode';

type SeatCodeProps = {
  readonly ids: { readonly id: string; readonly seatId: string };
  readonly label: string;
  readonly held: boolean;
};

/** A code to be read out, for whoever cannot be sent a link; for a seat that is held it lets a further device ask. */
export function SeatCode({ ids, label, held }: SeatCodeProps) {
  const trpc = useTRPC();
  const make = useMutation(trpc.setup.spokenCode.mutationOptions());
  const gone = refusalDetails(make.error)?.code === 'in-use';
  const words = held ? 'Code for a further device' : 'Spoken code';
  return (
    <>
      {make.data ? <ShownCode {...make.data} /> : null}
      <Refusal error={make.error} words={gone ? 'A device has held this seat before. Reissue the seat first.' : null} />
      <Button
        tone={held ? 'quiet' : 'plain'}
        busy={make.isPending}
        aria-label={`${words} for ${label}`}
        onClick={() => make.mutate(ids)}
      >
        {words}
      </Button>
    </>
  );
}
