'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { Refusal } from '../_parts/Refusal';
import { FieldTick } from '../_parts/FieldTick';
import { listWords } from '../board/listWords';
import { notAgreed } from './notAgreed';
import { openingList } from './openingList';
import { Part } from './Part';
import styles from './Setup.module.css';
import type { SetupView } from './setupDraft';

type OpenPartProps = {
  readonly setup: SetupView;
  readonly unsaved: boolean;
  readonly read: boolean;
};

const weightWords = { done: 'done', must: 'missing', note: 'note' } as const;

/** The way into scoring: what is missing, what stands from then on, and two presses. */
export function OpenPart(props: OpenPartProps) {
  const [ticked, tick] = useState(false);
  const missing = notAgreed(props.setup);
  const without = ticked && missing.length > 0;
  const list = openingList({ ...props, without });
  const ready = list.every((item) => item.weight !== 'must');
  return (
    <Part title="Open the round" note="From then on nobody sees another’s score until you reveal, you included.">
      <ul className={styles.opening}>
        {list.map(({ words, weight }) => (
          <li key={words} data-weight={weight}>
            <span className={styles.mark}>{weightWords[weight]}</span> {words}
          </li>
        ))}
      </ul>
      {missing.length > 0 ? (
        <FieldTick
          label={`Open without the agreement of ${listWords(missing)}`}
          hint="The pick order then stands as you wrote it, and nobody can change it any more. The record says who had not agreed to it, for everybody to read."
          ticked={ticked}
          onChange={tick}
        />
      ) : null}
      <OpenRound setup={props.setup} ready={ready} unconfirmed={without} />
    </Part>
  );
}

type OpenRoundProps = { readonly setup: SetupView; readonly ready: boolean; readonly unconfirmed: boolean };

function OpenRound({ setup, ready, unconfirmed }: OpenRoundProps) {
  const [asked, setAsked] = useState(false);
  const trpc = useTRPC();
  const queries = useQueryClient();
  const open = useMutation(trpc.evaluation.openRound.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  if (!asked || !ready) {
    return (
      <div className={styles.actions}>
        <Button tone="main" disabled={!ready} onClick={() => setAsked(true)}>
          Open the round
        </Button>
      </div>
    );
  }
  return (
    <div className={styles.asked} role="group" aria-label="Open the round">
      <p>
        <b>Fixed from then on:</b> the sheet and its scale, the purposes and their weights, the pick order, the order of showing, and what each
        seat can see and touch. A late seat can still be added while the round is open.
      </p>
      <Refusal error={open.error} />
      <div className={styles.actions}>
        <Button tone="main" busy={open.isPending} onClick={() => open.mutate({ id: setup.id, unconfirmed })}>
          Open it now
        </Button>
        <Button onClick={() => setAsked(false)}>Not yet</Button>
      </div>
    </div>
  );
}
