import type { EvaluationView } from '#lib/contract/evaluationView';
import type { Entry, EntryBody } from '#lib/contract/entry';
import { checkByKey } from '#lib/sheet/checkCatalogue';
import { systemRandom } from '#server/random';
import { lockCard } from './lockCard';
import type { TestClient } from './testClient';
import type { Quillmarsh } from './seedQuillmarsh';

export type CellOf = (cell: {
  readonly puppy: string;
  readonly criterion: string;
  readonly twoSided: boolean;
  readonly seat: string;
}) => number | null;

/** Fills one seat's cards with what `cellOf` gives; a null cell is answered "cannot judge". */
export async function scoreCard(client: TestClient, id: string, cellOf: CellOf): Promise<void> {
  const view = await client.api.evaluation.get.query({ id });
  const seat = view.seats.find((one) => one.id === view.viewer.seatId);
  if (!seat || !view.round) throw new Error('this client has no seat in an open round');
  const bodies = view.round.showings.flatMap((showing) => cardBodies(view, { showing, seat, cellOf }));
  const entries = bodies.map(
    ({ subject, body }): Entry => ({ id: systemRandom.id(), subject, counter: 1, madeAt: 1, body }),
  );
  for (let start = 0; start < entries.length; start += 50) {
    const outcomes = await client.api.card.submit.mutate({ id, entries: entries.slice(start, start + 50) });
    const refused = outcomes.find((outcome) => outcome.status !== 'applied');
    if (refused) throw new Error(`an entry was ${refused.status}: ${refused.code}`);
  }
}

type CardOf = {
  readonly showing: NonNullable<EvaluationView['round']>['showings'][number];
  readonly seat: EvaluationView['seats'][number];
  readonly cellOf: CellOf;
};

function cardBodies(view: EvaluationView, { showing, seat, cellOf }: CardOf): { subject: string; body: EntryBody }[] {
  const puppy = view.puppies.find((one) => one.id === showing.puppyId)?.name ?? '';
  const mayTouch = seat.kind === 'hands';
  const scores = view.sheet.criteria
    .filter((criterion) => mayTouch || !criterion.handsOnly)
    .map((criterion): EntryBody => {
      const value = cellOf({ puppy, criterion: criterion.key, twoSided: criterion.twoSided, seat: seat.label });
      return { kind: 'score', criterion: criterion.key, value, cannotJudge: value === null };
    });
  const checks = view.sheet.checks.flatMap((key): EntryBody[] => {
    const check = checkByKey(key);
    const normal = check?.answers.find((answer) => answer.outcome === 'normal');
    return check && normal && (mayTouch || !check.handsOnly)
      ? [{ kind: 'check', check: key, answer: normal.key, detail: '' }]
      : [];
  });
  return [...scores, ...checks].map((body) => ({ subject: showing.id, body }));
}

/** A fixed invented litter: puppies fall off evenly, seats differ by a little that repeats. */
export const steadyCell: CellOf = ({ puppy, criterion, twoSided, seat }) => {
  const place = ['Fern', 'Moss', 'Sorrel', 'Sedge', 'Yarrow', 'Heather', 'Bramble', 'Teasel', 'Burdock'].indexOf(puppy);
  const wobble = (puppy.length * 7 + criterion.length * 3 + seat.length * 5) % 3;
  return twoSided
    ? Math.min(3, Math.max(-3, Math.round(place / 3) - 1 + wobble - 1))
    : Math.min(7, Math.max(1, 6 - Math.round(place / 2) + wobble - 1));
};

/** Opens the round, lets every seat score and lock, and reveals. */
export async function playToReveal({ id, owner, seats }: Quillmarsh, cellOf: CellOf = steadyCell): Promise<void> {
  await owner.api.evaluation.openRound.mutate({ id });
  for (const client of [owner, ...Object.values(seats)]) await scoreCard(client, id, cellOf);
  for (const client of [...Object.values(seats), owner]) await lockCard(client, id);
  await owner.api.evaluation.revealRound.mutate({ id });
}
