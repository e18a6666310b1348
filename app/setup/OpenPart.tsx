'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { useState } from 'react';
import { useTRPC } from '../_data/trpc';
import { Button } from '../_parts/Button';
import { FieldTick } from '../_parts/FieldTick';
import { Refusal } from '../_parts/Refusal';
import { listWords } from '../_parts/textWords';
import { collarClash } from '../litter/collarClash';
import { Part } from './Part';
import { notAgreed, type SetupView } from './setupDraft';
import styles from './setup.module.css';

type OpenPartProps = {
  readonly setup: SetupView;
  readonly unsaved: boolean;
  readonly read: boolean;
};

const weightTones = { done: '', must: 'tone-stop', note: 'tone-note' } as const;
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
      <ul className={`list lined ${styles.opening}`}>
        {list.map(({ words, weight }) => (
          <li key={words} className="flex gap-12">
            <span className={`small ${styles.mark} ${weightTones[weight]}`}>{weightWords[weight]}</span> {words}
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
      <div className="tools">
        <Button tone="main" disabled={!ready} onClick={() => setAsked(true)}>
          Open the round
        </Button>
      </div>
    );
  }
  return (
    <div className={`stack gap-12 ${styles.asked}`} role="group" aria-label="Open the round">
      <p>
        <b>Fixed from then on:</b> the sheet and its scale, the purposes and their weights, the pick order, the order of
        showing, and what each seat can see and touch. A late seat can still be added while the round is open.
      </p>
      <Refusal error={open.error} />
      <div className="tools">
        <Button tone="main" busy={open.isPending} onClick={() => open.mutate({ id: setup.id, unconfirmed })}>
          Open it now
        </Button>
        <Button onClick={() => setAsked(false)}>Not yet</Button>
      </div>
    </div>
  );
}

type OpeningItem = {
  readonly words: string;
  /** `must`: the round cannot open. `note`: worth knowing, no more. */
  readonly weight: 'done' | 'must' | 'note';
};

type Ground = {
  readonly setup: SetupView;
  readonly unsaved: boolean;
  readonly read: boolean;
  /** The owner has ticked that she opens although a party has not agreed to the pick order. */
  readonly without: boolean;
};

/** What is still missing before the round can open, what is worth knowing, and what is done. */
function openingList({ setup, unsaved, read, without }: Ground): OpeningItem[] {
  const present = setup.puppies.filter((puppy) => !puppy.withdrawn);
  const scoring = setup.seats.filter((seat) => seat.kind !== 'none');
  return [
    must(present.length > 0, 'There are puppies to show', 'The litter has no puppies'),
    must(scoring.length > 0, `${scoring.length} of ${setup.seats.length} seats score`, 'No seat scores'),
    must(!unsaved, 'The set-up is saved', 'The set-up has changes that are not saved'),
    must(read, 'The cautions are read', 'The cautions are not ticked as read'),
    ...lessonItems(setup),
    ...agreementItems(setup, without),
    ...notes(setup),
  ];
}

function must(done: boolean, words: string, missing: string): OpeningItem {
  return done ? { words, weight: 'done' } : { words: missing, weight: 'must' };
}

/** A lesson compares two cards, the learner's and a mentor's. */
function lessonItems({ plan, seats }: SetupView): OpeningItem[] {
  if (plan.kind !== 'lesson') return [];
  return [
    must(
      seats.filter((seat) => seat.kind !== 'none').length === 2,
      'The learner and one mentor score',
      'In a lesson two seats score, the learner and one mentor; let the others be “not scoring”',
    ),
  ];
}

function agreementItems(setup: SetupView, without: boolean): OpeningItem[] {
  const missing = listWords(notAgreed(setup));
  if (setup.parties.length === 0) return [];
  if (missing === '') return [{ words: 'Every party has agreed to the pick order', weight: 'done' }];
  return [
    without
      ? { words: `Opened without the agreement of ${missing} to the pick order`, weight: 'note' }
      : { words: `Not agreed to the pick order yet: ${missing}`, weight: 'must' },
  ];
}

function notes(setup: SetupView): OpeningItem[] {
  const scoring = setup.seats.filter((seat) => seat.kind !== 'none');
  const linkless = setup.seats
    .filter((seat) => !seat.owner && seat.state === 'invited' && !seat.linkWaiting)
    .map(({ label }) => label);
  const waiting = setup.seats
    .filter((seat) => !seat.owner && seat.state === 'invited' && seat.linkWaiting)
    .map(({ label }) => label);
  const words = [
    ...(scoring.length === 1 ? ['One seat alone cannot be compared with anybody: agreement needs at least two'] : []),
    ...(linkless.length > 0
      ? [`No link made yet for ${listWords(linkless)}; it can follow while the round is open`]
      : []),
    ...(waiting.length > 0 ? [`Not joined yet: ${listWords(waiting)}; they can join while the round is open`] : []),
    ...(setup.plan.silentRepeat && setup.puppies.filter((puppy) => !puppy.withdrawn).length < 4
      ? ['With fewer than four puppies none is shown twice']
      : []),
    ...(setup.slots.length === 0 ? ['The pick order is empty'] : []),
    ...collarClash(setup.puppies),
  ];
  return words.map((one) => ({ words: one, weight: 'note' }));
}
