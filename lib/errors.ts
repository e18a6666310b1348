/** Why a request was refused. Words for people live in app; this list is closed so that every code has a row in the map. */
export const domainErrorCodes = [
  'not-signed-in',
  'not-allowed',
  'not-found',
  'wrong-phase',
  'bad-input',
  'out-of-scale',
  'other-version',
  'link-dead',
  'wrong-secret',
  'still-open',
  'not-confirmed',
  'learner-first',
  'lesson-seats',
  'looks-spent',
  'look-awaited',
  'own-card-open',
  'out-of-step',
  'not-eligible',
  'on-hold',
  'unexamined',
  'day-past',
  'in-use',
  'too-many',
  'busy',
  'disk-full',
  'store-failed',
  'file-kind',
  'file-heic',
  'file-unreadable',
  'file-too-large',
  'file-damaged',
  'picture-too-big',
  'clip-too-long',
  'anonymous',
  'not-bound',
  'imported',
  'already-here',
  'file-refused',
] as const;

export type DomainErrorCode = (typeof domainErrorCodes)[number];

/** A refusal: its message is its code; `details` holds ids and limits, never a score. */
export class DomainError extends Error {
  readonly code: DomainErrorCode;
  readonly details: Readonly<Record<string, string | number>>;

  constructor(code: DomainErrorCode, details: Readonly<Record<string, string | number>> = {}) {
    super(code);
    this.name = 'DomainError';
    this.code = code;
    this.details = details;
  }
}

/** Why a request came no further than the door: refused before any procedure, under a code of its own. */
export type FrontRefusal = 'unknown-host' | 'foreign-page' | 'stopping' | 'too-large';
