import { DomainError } from '#lib/errors';
import type { DemoCopy, Runtime } from '../../runtime';

/** The asker's copy. Throws not-found outside the demo. */
export function copyOf({ demo }: Runtime): DemoCopy {
  if (!demo?.copy) throw new DomainError('not-found');
  return demo.copy;
}
