import type { PuppyFace, SlotView } from '#lib/contract/evaluationView';
import { checkByKey } from '#lib/sheet/checkByKey';
import type { DecideProps } from './PicksSection';

export type CandidateLine = {
  readonly puppy: PuppyFace;
  /** Chance of being the best for this place; null where the panel gives none. */
  readonly probability: number | null;
  /** Why it cannot be picked, in words; null when it can. */
  readonly barred: string | null;
  /** Standing holds in words, said even where they do not bar this place. */
  readonly holds: string;
};

/** Every puppy for one place: those that fit first, most probable first; the others with the reason why not. */
export function candidateLines(slot: SlotView, { evaluation, revealed, faces }: DecideProps): CandidateLine[] {
  const chances = new Map(revealed.board.slots.find((one) => one.slotId === slot.id)?.chances.map(({ puppy, probability }) => [puppy, probability]));
  return evaluation.puppies
    .map((puppy): CandidateLine => {
      const holds = holdWords(puppy.id, revealed.decision.holds);
      const taken = revealed.decision.decisions.find((one) => one.puppyId === puppy.id);
      return {
        puppy,
        probability: chances.get(puppy.id) ?? null,
        holds,
        barred: barredWords(slot, puppy, { holds, takenAt: taken ? faces.place(taken.slotId) : null }),
      };
    })
    .sort((a, b) => Number(a.barred !== null) - Number(b.barred !== null) || (b.probability ?? 0) - (a.probability ?? 0));
}

function barredWords(slot: SlotView, puppy: PuppyFace, { holds, takenAt }: { readonly holds: string; readonly takenAt: number | null }): string | null {
  if (puppy.withdrawn) return 'withdrawn';
  if (takenAt !== null) return `picked for place ${takenAt}`;
  if (slot.sex !== 'any' && slot.sex !== puppy.sex) return `a ${puppy.sex}; this place asks for a ${slot.sex}`;
  return slot.purpose === 'keep' && holds !== '' ? `held by ${holds}` : null;
}

function holdWords(puppyId: string, holds: DecideProps['revealed']['decision']['holds']): string {
  return holds
    .filter((hold) => hold.puppyId === puppyId && hold.cleared === null)
    .map((hold) => `${checkByKey(hold.check)?.name.toLowerCase() ?? hold.check} (${hold.answers.join('; ')})`)
    .join(', ');
}
