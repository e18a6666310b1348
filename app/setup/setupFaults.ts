import type { Sheet } from '#lib/sheet/sheet';
import type { SetupDraft } from './setupDraft';

export type SetupFaults = {
  readonly name: string | null;
  readonly heldOn: string | null;
  readonly callLink: string | null;
  readonly purposes: string | null;
  readonly plan: string | null;
  readonly meal: string | null;
  /** By place in the pick order. */
  readonly takers: readonly (string | null)[];
};

/** What keeps the set-up from being saved, in words, each beside its field. */
export function setupFaults(
  { input, purposes, slots, plan }: SetupDraft,
  sheet: Pick<Sheet, 'criteria'>,
  whelpedOn: string,
): SetupFaults {
  const weighsNothing = purposes.some(({ weights }) => sheet.criteria.every(({ key }) => (weights[key] ?? 1) === 0));
  return {
    name: input.name.trim() === '' ? 'It needs a name to go by.' : null,
    heldOn:
      input.heldOn === '' ? 'On which day?' : input.heldOn < whelpedOn ? 'That is before the whelping date.' : null,
    callLink: input.callLink === '' || isWebAddress(input.callLink) ? null : 'A link starts with https:// or http://.',
    purposes:
      purposes.length === 0
        ? 'Choose at least one purpose.'
        : weighsNothing
          ? 'In each purpose at least one criterion has to count.'
          : null,
    plan: plan.kind === 'lesson' && plan.learnerSeatId === null ? 'Whose cards are compared?' : null,
    meal: Number.isNaN(plan.hoursSinceMeal) ? 'How many hours?' : null,
    takers: slots.map(({ taker }) => (taker.trim() === '' ? 'Who takes this place?' : null)),
  };
}

export function anyFault(faults: SetupFaults): boolean {
  const { takers, ...others } = faults;
  return takers.some((one) => one !== null) || Object.values(others).some((one) => one !== null);
}

function isWebAddress(text: string): boolean {
  return /^https?:\/\//.test(text) && URL.canParse(text);
}
