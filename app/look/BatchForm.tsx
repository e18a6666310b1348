'use client';

import { useMutation, useQueryClient } from '@tanstack/react-query';
import { type FormEvent, useState } from 'react';
import type { LookView } from '#lib/contract/lookView';
import { readings } from '#lib/reconcile/sentences/readings';
import { type RouterOutputs, useTRPC } from '../_data/trpc';
import { useEvaluation } from '../_evaluation/evaluationContext';
import type { Faces } from '../_evaluation/facesOf';
import { Button } from '../_parts/Button';
import { FieldChoice } from '../_parts/FieldChoice';
import { Refusal } from '../_parts/Refusal';
import { capital, counted } from '../_parts/textWords';
import { undefinedWords } from '../_result/undefinedWords';
import type { SlotResult } from '../board/PlaceCard';
import styles from './look.module.css';

const MOST = 3;

type BatchFormProps = {
  readonly slot: SlotResult;
  readonly medium: 'table' | 'photographs';
  readonly proposal: RouterOutputs['look']['propose'];
  readonly looks: readonly LookView[];
  readonly faces: Faces;
};

/** The proposed pairs with what they should bring, to take as they are or to change, and the press that opens them. */
export function BatchForm({ slot, medium, proposal, looks, faces }: BatchFormProps) {
  const evaluation = useEvaluation();
  const trpc = useTRPC();
  const queries = useQueryClient();
  const [changed, setChanged] = useState<readonly Pair[] | null>(null);
  const open = useMutation(trpc.look.open.mutationOptions({ onSuccess: () => queries.invalidateQueries() }));
  const fitting = slot.chances.map(({ puppy }) => puppy);
  const pairs =
    changed ??
    ('undefined' in proposal
      ? likeliest(fitting)
      : proposal.pairs.map(({ firstPuppyId, secondPuppyId }) => ({ firstPuppyId, secondPuppyId })));
  const ready =
    pairs.length > 0 &&
    pairs.every(({ firstPuppyId, secondPuppyId }) => firstPuppyId !== secondPuppyId) &&
    distinct(pairs);
  const send = (event: FormEvent) => {
    event.preventDefault();
    if (ready) open.mutate({ id: evaluation.id, slotId: slot.slotId, medium, pairs: [...pairs] });
  };
  if (fitting.length < 2) return <p>Fewer than two puppies fit this place.</p>;
  return (
    <form onSubmit={send} className="stack gap-14" aria-label="Pairs to look at">
      {'undefined' in proposal ? (
        <p>No pairs are proposed here: {capital(undefinedWords(proposal.undefined))}. You may choose some yourself.</p>
      ) : (
        <p className={styles.gain}>
          {lookGainWords({ now: proposal.now, gain: proposal.gain, pairs: proposal.pairs.length })}
          {changed === null ? '' : ' This is said of the proposed pairs, not of those you have put in their place.'}
        </p>
      )}
      <PairsForm
        pairs={pairs}
        puppies={fitting.map((id) => ({ key: id, words: faces.puppyName(id) }))}
        most={MOST}
        notice={(pair, at) => pairNotice(looks, { pair, at, medium }, faces)}
        onChange={setChanged}
      />
      <div className="wrap gap-10">
        <Button type="submit" tone="main" busy={open.isPending} disabled={!ready}>
          {ready
            ? `Open this batch of ${counted(pairs.length, 'pair')}`
            : 'Every pair needs two puppies, and each pair once'}
        </Button>
        {changed === null || 'undefined' in proposal ? null : (
          <Button onClick={() => setChanged(null)}>Back to the proposed pairs</Button>
        )}
      </div>
      <Refusal error={open.error} />
    </form>
  );
}

function likeliest([first, second]: readonly string[]): Pair[] {
  return first === undefined || second === undefined ? [] : [{ firstPuppyId: first, secondPuppyId: second }];
}

function distinct(pairs: readonly Pair[]): boolean {
  return (
    new Set(pairs.map(({ firstPuppyId, secondPuppyId }) => [firstPuppyId, secondPuppyId].sort().join())).size ===
    pairs.length
  );
}

type Gain = { readonly now: number; readonly gain: number; readonly pairs: number };

/** What a batch should bring, and that it may not: "… is right in 61 of 100 readings … about 4 of 100 more." */
function lookGainWords({ now, gain, pairs }: Gain): string {
  const more = readings(gain);
  const brings = more === 'fewer than 1' ? 'hardly anything: fewer than 1 of 100 more' : `about ${more} of 100 more`;
  return `As things stand, the puppy that looks likeliest for this place is the right one in ${readings(now)} of 100 readings. Answers of every seat that may give one to ${pairs === 1 ? 'this pair' : `these ${pairs} pairs`} should on average bring ${brings}; one batch may bring more than that, or nothing.`;
}

type PairsFormProps = {
  readonly pairs: readonly Pair[];
  readonly puppies: readonly { readonly key: string; readonly words: string }[];
  readonly most: number;
  /** Beside each pair: who stands where. */
  readonly notice: (pair: Pair, at: number) => string;
  readonly onChange: (pairs: readonly Pair[]) => void;
};

/** The pairs of a batch, to change, take away and add to. */
function PairsForm({ pairs, puppies, most, notice, onChange }: PairsFormProps) {
  const put = (at: number, part: Partial<Pair>) =>
    onChange(pairs.map((pair, index) => (index === at ? { ...pair, ...part } : pair)));
  const spare = firstFree(
    pairs,
    puppies.map(({ key }) => key),
  );
  return (
    <>
      <ol className="list stack gap-12">
        {pairs.map((pair, at) => (
          <li key={at} className="card">
            <div className="grid gap-12 halves ends">
              <FieldChoice
                label={`Pair ${at + 1}, one puppy`}
                value={pair.firstPuppyId}
                options={puppies}
                onChange={(firstPuppyId) => put(at, { firstPuppyId })}
              />
              <FieldChoice
                label={`Pair ${at + 1}, the other`}
                value={pair.secondPuppyId}
                options={puppies}
                onChange={(secondPuppyId) => put(at, { secondPuppyId })}
              />
            </div>
            <p className="small">
              {pair.firstPuppyId === pair.secondPuppyId ? 'Choose two different puppies.' : notice(pair, at)}
            </p>
            {pairs.length > 1 ? (
              <div>
                <Button
                  tone="quiet"
                  aria-label={`Leave out pair ${at + 1}`}
                  onClick={() => onChange(pairs.filter((_, index) => index !== at))}
                >
                  Leave out
                </Button>
              </div>
            ) : null}
          </li>
        ))}
      </ol>
      {pairs.length < most && spare ? (
        <div>
          <Button onClick={() => onChange([...pairs, spare])}>Add a pair</Button>
        </div>
      ) : null}
    </>
  );
}

/** The first two puppies that are no pair yet. */
function firstFree(pairs: readonly Pair[], ids: readonly string[]): Pair | null {
  const taken = new Set(pairs.map(({ firstPuppyId, secondPuppyId }) => [firstPuppyId, secondPuppyId].sort().join()));
  for (const [at, firstPuppyId] of ids.entries()) {
    const secondPuppyId = ids.slice(at + 1).find((id) => !taken.has([firstPuppyId, id].sort().join()));
    if (secondPuppyId !== undefined) return { firstPuppyId, secondPuppyId };
  }
  return null;
}

type Pair = { readonly firstPuppyId: string; readonly secondPuppyId: string };
type Shown = {
  readonly pair: Pair /** Its place in the batch, from 0: new pairs take turns. */;
  readonly at: number;
  readonly medium: LookView['medium'];
};

/** Which of the two will stand on the left; on a repeat they change places, and it says so. */
function pairNotice(
  looks: readonly LookView[],
  { pair: { firstPuppyId: first, secondPuppyId: second }, at, medium }: Shown,
  faces: Faces,
): string {
  if (medium === 'photographs')
    return 'From photographs each seat has sides of its own, so that the side cannot decide.';
  const earlier = looks.findLast(
    (look) => [look.firstPuppyId, look.secondPuppyId].sort().join() === [first, second].sort().join(),
  );
  if (!earlier) {
    const [left, right] = at % 2 === 0 ? [first, second] : [second, first];
    return `${faces.puppyName(left)} will stand on the left, ${faces.puppyName(right)} on the right.`;
  }
  const left = earlier.leftPuppyId === first ? second : first;
  return `These two were looked at before: this time they change places, and ${faces.puppyName(left)} stands on the left.`;
}
