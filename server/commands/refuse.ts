import { DomainError, type DomainErrorCode } from '#lib/errors';

/** Turns a rule's verdict into a refusal; null means the rule agreed. */
export function refuse(verdict: DomainErrorCode | null): void {
  if (verdict) throw new DomainError(verdict);
}
