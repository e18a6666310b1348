'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { freshId } from '../_data/freshId';
import { useTRPC, useTRPCClient } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Disclosure } from '../_parts/Disclosure';
import { collarWords, counted } from '../_parts/textWords';
import { FieldChoice } from '../_parts/FieldChoice';
import { Refusal } from '../_parts/Refusal';
import styles from './score.module.css';
import type { Scoring } from './useScoring';
import { faceOf, type Shown } from './useShowing';

type Props = { readonly scoring: Scoring; readonly shown: Shown };

/** After a collar swap: what was said of two puppies changes places, asked twice, and only with everything on the server. */
export function CardMove({ scoring, shown }: Props) {
  const [otherId, choose] = useState('');
  const [asked, ask] = useState(false);
  const move = useMove(scoring);
  const faces = scoring.round.showings
    .flatMap(({ id }) => faceOf(scoring, id) ?? [])
    .filter(({ puppy }) => !puppy.withdrawn);
  const others = faces.filter(({ puppy }) => puppy.id !== shown.puppy.id);
  const other = others.find(({ showing }) => showing.id === otherId)?.puppy;
  const here = shown.puppy.name;
  const hindrance = hindranceOf(scoring);
  return (
    <Disclosure bare className={`stack gap-10 ${styles.move}`} words="Scored under the wrong collar?">
      <p className="small">
        If two puppies wore each other’s collar, let your cards on them change places. Everything you said goes along;
        nothing is lost, and the record says which puppies, never what.
      </p>
      <FieldChoice
        label={`Your card on ${here} belongs to`}
        value={otherId}
        options={[
          { key: '', words: 'choose one' },
          ...others.map(({ showing, puppy }) => ({
            key: showing.id,
            words: `${puppy.name}, ${collarWords(puppy.collar)}`,
          })),
        ]}
        onChange={(id) => {
          choose(id);
          ask(false);
          move.reset();
        }}
      />
      {hindrance !== null ? <p role="note">{hindrance}</p> : null}
      {move.isSuccess ? <p role="status">Done. The two cards have changed places.</p> : null}
      <Refusal error={move.error} />
      {other && !asked && !move.isSuccess ? (
        <Button disabled={hindrance !== null} onClick={() => ask(true)}>
          Let them change places …
        </Button>
      ) : null}
      {other && asked && !move.isSuccess ? (
        <div className={`wrap centred gap-10 ${styles.sure}`}>
          <p>
            All you said of {here} goes to {other.name}, and all you said of {other.name} to {here}.
          </p>
          <Button
            tone="stop"
            busy={move.isPending}
            disabled={hindrance !== null}
            onClick={() => move.mutate({ from: shown.showing.id, to: otherId })}
          >
            Yes, change them
          </Button>
          <Button onClick={() => ask(false)}>No</Button>
        </div>
      ) : null}
    </Disclosure>
  );
}

/** Asking again after a broken link is the same move: the id is made once for each pair chosen. */
function useMove({ evaluation }: Scoring) {
  const trpc = useTRPC();
  const client = useTRPCClient();
  const queries = useQueryClient();
  const [ids] = useState(() => new Map<string, string>());
  return useMutation({
    mutationFn: ({ from, to }: { readonly from: string; readonly to: string }) => {
      const pair = `${from} ${to}`;
      const moveId = ids.get(pair) ?? freshId();
      ids.set(pair, moveId);
      return client.card.move.mutate({ id: evaluation.id, from, to, moveId });
    },
    onSuccess: (_done, { from, to }) => {
      ids.delete(`${from} ${to}`);
      return queries.invalidateQueries(trpc.card.mine.queryFilter({ id: evaluation.id }));
    },
  });
}

/** Why not now, in words; null when it can be done. */
function hindranceOf({ waiting, link }: Scoring): string | null {
  if (waiting > 0)
    return `Not yet: ${counted(waiting, 'answer')} only on this device. What waits goes first; it is tried again by itself.`;
  return link.connected ? null : 'Not without a link: the server has to do it, so that your other devices follow.';
}
