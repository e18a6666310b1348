import { purposeKeys } from './purposeKeys';
import type { RouterInputs, RouterOutputs } from '../_parts/routerOutputs';

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
    slots: view.slots.map(({ taker, seatId, purpose, sex, condition, byWhen, ifFails }) => ({ taker, seatId, purpose, sex, condition, byWhen, ifFails })),
    order: [...listed, ...missing],
    plan: view.plan,
  };
}
