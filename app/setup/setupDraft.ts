import type { PurposeKey } from '#lib/contract/setup';
import type { RouterInputs, RouterOutputs } from '../_data/trpc';

export type SetupView = RouterOutputs['setup']['get'];

/** What the set-up page saves in one go. Lists are plain arrays, as the contract wants them. */
export type SetupDraft = Omit<RouterInputs['setup']['save'], 'id'>;
export type SlotDraft = SetupDraft['slots'][number];
export type PurposeDraft = SetupDraft['purposes'][number];

/** The draft that says what the server says. */
export function setupDraft(view: SetupView): SetupDraft {
  const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId } = view;
  const listed = view.order.filter((id) => view.puppies.some((puppy) => puppy.id === id));
  const missing = view.puppies.filter((puppy) => !listed.includes(puppy.id)).map((puppy) => puppy.id);
  return {
    input: { name, heldOn, medium, callLink, callNumber, tableNote },
    sheetId,
    purposes: purposeKeys.flatMap((key) => view.purposes.find((purpose) => purpose.key === key) ?? []),
    slots: view.slots.map(({ taker, seatId, purpose, sex, condition, byWhen, ifFails }) => ({
      taker,
      seatId,
      purpose,
      sex,
      condition,
      byWhen,
      ifFails,
    })),
    order: [...listed, ...missing],
    plan: view.plan,
  };
}

export const mediumOptions = [
  { key: 'table', words: 'the puppy on the table' },
  { key: 'photographs', words: 'photographs' },
] as const;

/** What the quiet-table card says unless the owner changes it: the voice gives more away than the screen. */
export const quietTable = [
  'Until everyone has locked: say nothing about quality.',
  'No sighs, no “this one”, no favourites, nothing about parents or who takes whom.',
  'Say only which puppy is up, and what it needs.',
  'On the call: mute, unless the owner asks you something.',
].join('\n');

/** In the order they are offered; none stands above another. Written out here because the contract's own list brings all its checks along. */
export const purposeKeys: readonly PurposeKey[] = ['keep', 'working', 'companion'];

/** Labels of the parties that have not agreed to the pick order as it is saved. */
export function notAgreed({ parties, seats }: SetupView): string[] {
  return parties.flatMap(({ seat, confirmed }) =>
    confirmed ? [] : (seats.find((one) => one.id === seat)?.label ?? []),
  );
}
