import { collarClash } from '../litter/collarClash';
import { notAgreed } from './notAgreed';
import type { SetupView } from './setupDraft';

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
export function openingList({ setup, unsaved, read, without }: Ground): OpeningItem[] {
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
  return [must(seats.filter((seat) => seat.kind !== 'none').length === 2, 'The learner and one mentor score', 'In a lesson two seats score, the learner and one mentor; let the others be “not scoring”')];
}

function agreementItems(setup: SetupView, without: boolean): OpeningItem[] {
  const missing = new Intl.ListFormat('en-GB').format(notAgreed(setup));
  if (setup.parties.length === 0) return [];
  if (missing === '') return [{ words: 'Every party has agreed to the pick order', weight: 'done' }];
  return [without ? { words: `Opened without the agreement of ${missing} to the pick order`, weight: 'note' } : { words: `Not agreed to the pick order yet: ${missing}`, weight: 'must' }];
}

function notes(setup: SetupView): OpeningItem[] {
  const scoring = setup.seats.filter((seat) => seat.kind !== 'none');
  const linkless = setup.seats.filter((seat) => !seat.owner && seat.state === 'invited' && !seat.linkWaiting).map(({ label }) => label);
  const waiting = setup.seats.filter((seat) => !seat.owner && seat.state === 'invited' && seat.linkWaiting).map(({ label }) => label);
  const names = (list: readonly string[]) => new Intl.ListFormat('en-GB').format(list);
  const words = [
    ...(scoring.length === 1 ? ['One seat alone cannot be compared with anybody: agreement needs at least two'] : []),
    ...(linkless.length > 0 ? [`No link made yet for ${names(linkless)}; it can follow while the round is open`] : []),
    ...(waiting.length > 0 ? [`Not joined yet: ${names(waiting)}; they can join while the round is open`] : []),
    ...(setup.plan.silentRepeat && setup.puppies.filter((puppy) => !puppy.withdrawn).length < 4 ? ['With fewer than four puppies none is shown twice'] : []),
    ...(setup.slots.length === 0 ? ['The pick order is empty'] : []),
    ...collarClash(setup.puppies),
  ];
  return words.map((one) => ({ words: one, weight: 'note' }));
}
