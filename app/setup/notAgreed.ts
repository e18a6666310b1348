import type { SetupView } from './setupDraft';

/** Labels of the parties that have not agreed to the pick order as it is saved. */
export function notAgreed({ parties, seats }: SetupView): string[] {
  return parties.flatMap(({ seat, confirmed }) => (confirmed ? [] : (seats.find((one) => one.id === seat)?.label ?? [])));
}
