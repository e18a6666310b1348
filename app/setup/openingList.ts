import type { RouterOutputs } from '../_parts/routerOutputs';
import { collarClash } from '../litter/collarClash';
import type { SetupView } from './setupDraft';

type OpeningItem = {
  readonly words: string;
  /** `must`: the round cannot open. `note`: worth knowing, no more. */
  readonly weight: 'done' | 'must' | 'note';
};

type Ground = { readonly setup: SetupView; readonly litter: RouterOutputs['litter']['get']; readonly unsaved: boolean; readonly read: boolean };

/** What is still missing before the round can open, what is worth knowing, and what is done. */
export function openingList({ setup, litter, unsaved, read }: Ground): OpeningItem[] {
  const present = setup.puppies.filter((puppy) => !puppy.withdrawn);
  const scoring = setup.seats.filter((seat) => seat.kind !== 'none');
  return [
    must(present.length > 0, 'There are puppies to show', 'The litter has no puppies'),
    must(scoring.length > 0, `${scoring.length} of ${setup.seats.length} seats score`, 'No seat scores'),
    must(!unsaved, 'The set-up is saved', 'The set-up has changes that are not saved'),
    must(read, 'The cautions are read', 'The cautions are not ticked as read'),
    ...notes({ setup, litter, unsaved, read }),
  ];
}

function must(done: boolean, words: string, missing: string): OpeningItem {
  return done ? { words, weight: 'done' } : { words: missing, weight: 'must' };
}

function notes({ setup, litter }: Ground): OpeningItem[] {
  const scoring = setup.seats.filter((seat) => seat.kind !== 'none');
  const linkless = setup.seats.filter((seat) => !seat.owner && seat.state === 'invited' && !seat.linkWaiting).map(({ label }) => label);
  const waiting = setup.seats.filter((seat) => !seat.owner && seat.state === 'invited' && seat.linkWaiting).map(({ label }) => label);
  const names = (list: readonly string[]) => new Intl.ListFormat('en-GB').format(list);
  const words = [
    ...(scoring.length === 1 ? ['One seat alone cannot be compared with anybody: agreement needs at least two'] : []),
    ...(linkless.length > 0 ? [`No link made yet for ${names(linkless)}; it can follow while the round is open`] : []),
    ...(waiting.length > 0 ? [`Not joined yet: ${names(waiting)}; they can join while the round is open`] : []),
    ...(setup.slots.length === 0 ? ['The pick order is empty'] : []),
    ...collarClash(litter.puppies),
  ];
  return words.map((one) => ({ words: one, weight: 'note' }));
}
