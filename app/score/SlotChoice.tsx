'use client';

import type { EntryBody } from '#lib/contract/entry';
import type { SlotView } from '#lib/contract/evaluationView';
import { registerOf } from '#lib/evaluation/outboxState';
import { slotEligibility } from '#lib/evaluation/pickOrder';
import { FieldChoice } from '../_parts/FieldChoice';
import { purposeWords } from '../_parts/textWords';
import { sexWords } from '../_parts/slotWords';
import styles from './score.module.css';
import { useDraft } from './useDraft';
import type { Scoring } from './useScoring';

type Choice = Extract<EntryBody, { kind: 'choice' }>;
type Words = { readonly reason: string; readonly chance: string };
type Props = { readonly scoring: Scoring; readonly slot: SlotView; readonly place: number };

const noChoice: Choice = { kind: 'choice', puppy: null, reason: '', chance: null };
const nobodyHeld: ReadonlySet<string> = new Set();

/** One's own choice for one place in the pick order, with a reason and, if one likes, a chance for twelve months. */
export function SlotChoice({ scoring, slot, place }: Props) {
  const { evaluation, answers, say } = scoring;
  const body = answers.get(registerOf(slot.id, 'choice'))?.body;
  const said = body?.kind === 'choice' ? body : noChoice;
  const keep = (puppy: string | null, { reason, chance }: Words) =>
    say(slot.id, { kind: 'choice', puppy, reason: reason.trim(), chance: chance === '' ? null : Number(chance) });
  // One draft for both fields: each edit carries the whole choice as typed so far.
  const typed = useDraft({ reason: said.reason, chance: said.chance === null ? '' : String(said.chance) }, (words) =>
    keep(said.puppy, words),
  );
  const fitting = slotEligibility(slot, evaluation.puppies, nobodyHeld);
  const puppies = evaluation.puppies.filter((puppy) => fitting.includes(puppy.id));
  const title = `${place}. ${slot.taker}: ${purposeWords[slot.purpose]}, ${sexWords[slot.sex]}`;
  const pick = (puppy: string) => {
    typed.finish();
    keep(puppy === '' ? null : puppy, typed.value);
  };
  return (
    <fieldset className={`sheet stack gap-10 ${styles.slot}`}>
      <legend className="aloud">{title}</legend>
      <h3 aria-hidden="true">{title}</h3>
      <FieldChoice
        label="Your choice"
        value={said.puppy ?? ''}
        options={[
          { key: '', words: 'no choice yet' },
          ...puppies.map(({ id, name, sex }) => ({ key: id, words: `${name} (${sex})` })),
        ]}
        onChange={pick}
      />
      <label className={`stack gap-4 bold ${styles.line}`}>
        <span>Why</span>
        <textarea
          className="key full"
          maxLength={500}
          value={typed.value.reason}
          onChange={(event) => typed.type({ ...typed.value, reason: event.target.value })}
          onBlur={typed.finish}
        />
      </label>
      <label className={`stack gap-4 bold ${styles.line}`}>
        <span>If you like: in how many of 100 such cases would you still choose this puppy at twelve months?</span>
        <input
          className="key full"
          inputMode="numeric"
          autoComplete="off"
          maxLength={3}
          value={typed.value.chance}
          onChange={(event) => typed.type({ ...typed.value, chance: hundredAtMost(event.target.value) })}
          onBlur={typed.finish}
        />
      </label>
    </fieldset>
  );
}

function hundredAtMost(typed: string): string {
  const digits = typed.replace(/\D/g, '').slice(0, 3);
  return digits === '' ? '' : String(Math.min(100, Number(digits)));
}
