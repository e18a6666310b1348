import type { Hold } from '#lib/contract/decisionView';
import type { Snapshot } from '#lib/contract/snapshot';
import { slotEligibility } from '#lib/evaluation/pickOrder';
import { answerOf } from '#lib/sheet/sheet';
import { checkKeys } from '#lib/sheet/check';
import type { BesideScores, CheckAnswer, CheckStake, PanelScore } from './panel';

const findings: Readonly<Record<string, CheckAnswer['finding']>> = {
  normal: 'normal',
  watch: 'watch',
  'not-normal': 'notNormal',
};

/** What a revealed round says beside its scores, for puppies that stayed: a hold that a veterinary answer has settled, either way, is no question any more. */
export function besideFromSnapshot(snapshot: Snapshot, holds: readonly Hold[]): BesideScores {
  const settled = new Set(holds.filter(isSettled).map(({ puppyId, check }) => JSON.stringify([puppyId, check])));
  const showings = snapshot.showings.map(({ id, puppyId, repeat }) => [id, { puppyId, repeat }] as const);
  const present = new Set(snapshot.puppies.filter(({ withdrawn }) => !withdrawn).map(({ id }) => id));
  const shown = new Map(showings.filter(([, { puppyId }]) => present.has(puppyId)));
  const checks = snapshot.answers.flatMap(({ seatId, subject, body }): CheckAnswer[] => {
    const puppy = shown.get(subject)?.puppyId;
    const check = body.kind === 'check' ? checkKeys.find((key) => key === body.check) : undefined;
    if (
      !puppy ||
      !check ||
      body.kind !== 'check' ||
      body.answer === null ||
      settled.has(JSON.stringify([puppy, check]))
    )
      return [];
    const finding = findings[answerOf(check, body.answer)?.outcome ?? ''];
    return finding ? [{ puppy, check, evaluator: seatId, finding }] : [];
  });
  const freeStances = snapshot.answers.flatMap(({ seatId, subject, body }): PanelScore[] => {
    const showing = shown.get(subject);
    if (!showing || showing.repeat || body.kind !== 'free' || body.value === null) return [];
    return [{ puppy: showing.puppyId, evaluator: seatId, criterion: body.criterion, value: body.value }];
  });
  return {
    checks,
    stakes: stakesOf(
      snapshot,
      holds.filter(({ stands }) => stands),
    ),
    freeStances,
  };
}

/** Cleared, or answered so that it stays; a look ahead leaves it open. */
const isSettled = ({ stands, said }: Hold): boolean => !stands || said.at(-1)?.choice?.kind === 'stays';

/** For each standing hold that is still a question: the slots that open to the puppy if that check, and it alone, is found to be normal. */
function stakesOf(snapshot: Snapshot, standing: readonly Hold[]): CheckStake[] {
  return standing
    .filter((hold) => !isSettled(hold))
    .map((hold) => {
      const others = new Set(standing.filter((other) => other !== hold).map(({ puppyId }) => puppyId));
      const held = new Set([...others, hold.puppyId]);
      const opens = snapshot.slots.filter(
        (slot) =>
          slotEligibility(slot, snapshot.puppies, others).includes(hold.puppyId) &&
          !slotEligibility(slot, snapshot.puppies, held).includes(hold.puppyId),
      );
      return { puppy: hold.puppyId, check: hold.check, slots: opens.map(({ id }) => id) };
    });
}
