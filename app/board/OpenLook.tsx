'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useRouter } from 'next/navigation';
import { useState } from 'react';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import { Refusal } from '../_parts/Refusal';
import { openCloseCalls } from './openCloseCalls';
import type { PlaceProps } from './PlaceCard';

/** Opens a second look at two candidates of a close call: for the owner and for whoever leads the table. */
export function OpenLook({ slot, evaluation, revealed, faces }: PlaceProps) {
  const trpc = useTRPC();
  const queries = useQueryClient();
  const router = useRouter();
  const pairs = pairsOf(slot.candidates.map(({ puppy }) => puppy));
  const [chosen, setChosen] = useState('0');
  const open = useMutation(
    trpc.look.open.mutationOptions({
      onSuccess: async () => {
        await queries.invalidateQueries();
        router.push(`/look?id=${evaluation.id}`);
      },
    }),
  );
  const pair = pairs[Number(chosen)] ?? pairs[0];
  if (!pair || evaluation.phase !== 'deciding' || !evaluation.viewer.leads) return null;
  if (revealed.looks.some((look) => look.state !== 'revealed')) return null;
  const isFirst = openCloseCalls(revealed)[0]?.slotId === slot.slotId;
  const again = pair !== undefined && revealed.looks.some((look) => pair.includes(look.firstPuppyId) && pair.includes(look.secondPuppyId));
  const words = ([first, second]: Pair) => `${faces.puppyName(first)} and ${faces.puppyName(second)}`;
  return (
    <>
      {pairs.length > 1 ? (
        <FieldChoice
          label="Which two"
          value={chosen}
          options={pairs.map((one, at) => ({ key: String(at), words: words(one) }))}
          onChange={setChosen}
        />
      ) : null}
      <div>
        <Button
          tone={isFirst ? 'main' : 'plain'}
          busy={open.isPending}
          onClick={() => open.mutate({ id: evaluation.id, slotId: slot.slotId, medium: 'table', pairs: [{ firstPuppyId: pair[0], secondPuppyId: pair[1] }] })}
        >
          Open a second look {again ? 'again ' : ''}at {words(pair)}
        </Button>
      </div>
      <Refusal error={open.error} />
    </>
  );
}

type Pair = readonly [string, string];

function pairsOf(puppies: readonly string[]): Pair[] {
  return puppies.flatMap((first, at) => puppies.slice(at + 1).map((second): Pair => [first, second]));
}
