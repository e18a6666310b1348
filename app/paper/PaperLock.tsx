'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import type { PaperSeat } from '#lib/contract/paper';
import { useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import { Confirm } from '../_parts/Confirm';
import { FieldText } from '../_parts/FieldText';
import { Refusal } from '../_parts/Refusal';

/** The owner's press that gives a paper seat's cards out of her hands, once every sheet is typed. */
export function PaperLock({ seat }: { readonly seat: PaperSeat }) {
  const { id } = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [signedAt, setSignedAt] = useState('');
  const lock = useMutation(trpc.paper.lock.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const left = seat.sheets.filter((sheet) => sheet.typed === null).length;
  if (left > 0) return <p className="small">These cards can be locked once every sheet is typed; {left} to go.</p>;
  return (
    <div className="stack starts gap-8">
      <FieldText
        label="Time on the paper"
        hint="As it stands beside the signature; blank where there is none."
        value={signedAt}
        maxLength={20}
        onChange={setSignedAt}
      />
      <Confirm
        words="Lock these cards …"
        about={seat.label}
        doIt="Yes, lock them"
        busy={lock.isPending}
        onConfirm={() => lock.mutate({ id, seatId: seat.id, signedAt })}
      >
        <p>
          The cards of {seat.label} count as typed and are bound like every other. The record says that you locked them.
        </p>
      </Confirm>
      <Refusal error={lock.error} />
    </div>
  );
}
