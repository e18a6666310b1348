import { saveHomeLink } from '#db/queries/saveHomeLink';
import { DomainError } from '#lib/errors';
import { hashToken } from '../random';
import type { Runtime } from '../runtime';
import { writeEvaluation } from './writeEvaluation';

type Home = { readonly evaluationId: string; readonly puppyId: string };

/** A link by which one puppy's home reads its note, once the record is sealed; an earlier one ends. */
export function linkHome(runtime: Runtime, home: Home): string {
  const token = runtime.random.token();
  change(runtime, home, { kind: 'home-linked', tokenHash: hashToken(token) });
  return token;
}

/** The home's link reads nothing more. */
export function endHome(runtime: Runtime, home: Home): void {
  change(runtime, home, { kind: 'home-ended', tokenHash: null });
}

function change(runtime: Runtime, home: Home, { kind, tokenHash }: { readonly kind: 'home-linked' | 'home-ended'; readonly tokenHash: string | null }): void {
  writeEvaluation(runtime, home.evaluationId, (write) => {
    const puppy = write.facts.puppies.find((one) => one.id === home.puppyId);
    if (!puppy) throw new DomainError('not-found');
    if (write.facts.phase !== 'sealed') throw new DomainError('wrong-phase');
    saveHomeLink(runtime.db, { ...home, at: write.at }, tokenHash);
    write.note('owner', kind, puppy.name);
  });
}
