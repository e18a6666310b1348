import { saveHomeLink } from '#db/queries/links';
import { getLitter, savePuppy } from '#db/queries/litters';
import { findPhoto } from '#db/queries/photos';
import { saveBreedFigure } from '#db/queries/photoMarks';
import { inTransaction } from '#db/transaction';
import type { PuppyInput } from '#lib/contract/litter';
import type { BreedFigureInput } from '#lib/contract/photo';
import type { HomeAlong } from '#lib/contract/homeNote';
import { DomainError, type DomainErrorCode } from '#lib/errors';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { hashToken } from '../random';
import type { Runtime } from '../runtime';
import { refuse, writeEvaluation } from '../write/writeEvaluation';

type PuppyChange = {
  readonly litterId: string;
  readonly puppyId: string | null;
  readonly puppy: PuppyInput /** For one that is added: the same when it is asked again (SC2); left out for a fresh one. */;
  readonly newId?: string;
};

/** Adds a puppy or changes one. Two puppies of a litter never share a name: every picture and sentence goes by it. */
export function saveLitterPuppy(
  { db, random }: Runtime,
  { litterId, puppyId, puppy, newId = random.id() }: PuppyChange,
): string {
  return inTransaction(db, () => {
    const { puppies } = getLitter(db, litterId);
    if (puppyId !== null && !puppies.some((one) => one.id === puppyId)) throw new DomainError('not-found');
    const id = puppyId ?? newId;
    if (puppyId === null && puppies.some((one) => one.id === newId)) return newId;
    const taken = puppies.some((one) => one.id !== puppyId && one.name.toLowerCase() === puppy.name.toLowerCase());
    if (taken) throw new DomainError('bad-input', { field: 'name' });
    if (puppyId === null && puppies.length >= 20) throw new DomainError('too-many');
    savePuppy(db, { id, litterId, input: puppy });
    return id;
  });
}

/** One figure for each ratio of a litter; every evaluation of the litter reads the same. */
export function confirmBreedFigure(runtime: Runtime, evaluationId: string, figure: BreedFigureInput): void {
  writeEvaluation(runtime, evaluationId, ({ facts, at, touchAll }) => {
    if (figure.low > figure.high) throw new DomainError('bad-input', { field: 'low' });
    saveBreedFigure(runtime.db, { ...figure, litterId: facts.litter.id, confirmedAt: at });
    touchAll();
  });
}

type Home = { readonly evaluationId: string; readonly puppyId: string };

/** A link by which one puppy's home reads its note, once the record is sealed; an earlier one ends. */
export function linkHome(runtime: Runtime, home: Home, along: HomeAlong): string {
  const token = runtime.random.token();
  change(runtime, home, { kind: 'home-linked', link: { tokenHash: hashToken(token), ...along } });
  return token;
}

/** Notes are read once the record is sealed; a picture goes along only with the puppy that it shows. */
export function decideAlong(
  { db }: Runtime,
  facts: EvaluationFacts,
  { puppyId, along }: { readonly puppyId: string; readonly along: HomeAlong },
): DomainErrorCode | null {
  if (!facts.puppies.some(({ id }) => id === puppyId)) return 'not-found';
  if (facts.phase !== 'sealed') return 'wrong-phase';
  if (along.photoId === null) return null;
  const photo = findPhoto(db, along.photoId);
  const goes =
    photo &&
    photo.evaluationId === facts.id &&
    photo.puppyId === puppyId &&
    photo.kind === 'picture' &&
    photo.removedAt === null;
  return goes ? null : 'not-found';
}

/** The home's link reads nothing more. */
export function endHome(runtime: Runtime, home: Home): void {
  change(runtime, home, { kind: 'home-ended', link: null });
}

type Change = {
  readonly kind: 'home-linked' | 'home-ended';
  readonly link: (HomeAlong & { readonly tokenHash: string }) | null;
};

function change(runtime: Runtime, home: Home, { kind, link }: Change): void {
  writeEvaluation(runtime, home.evaluationId, ({ facts, at, note }) => {
    refuse(decideAlong(runtime, facts, { puppyId: home.puppyId, along: link ?? { contact: '', photoId: null } }));
    saveHomeLink(runtime.db, { ...home, at }, link);
    note('owner', kind, facts.puppies.find(({ id }) => id === home.puppyId)?.name ?? '');
  });
}
