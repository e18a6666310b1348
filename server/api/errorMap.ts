import type { TRPC_ERROR_CODE_KEY } from '@trpc/server';
import type { DomainErrorCode } from '#lib/errors';

/** Every refusal has its row: a new code without one does not compile. */
export const errorMap = {
  'not-signed-in': 'UNAUTHORIZED',
  'not-allowed': 'FORBIDDEN',
  'not-found': 'NOT_FOUND',
  'wrong-phase': 'CONFLICT',
  'bad-input': 'BAD_REQUEST',
  'out-of-scale': 'BAD_REQUEST',
  'link-dead': 'UNAUTHORIZED',
  'wrong-secret': 'UNAUTHORIZED',
  'still-open': 'CONFLICT',
  'not-confirmed': 'CONFLICT',
  'learner-first': 'CONFLICT',
  'looks-spent': 'CONFLICT',
  'own-card-open': 'CONFLICT',
  'out-of-step': 'CONFLICT',
  'not-eligible': 'CONFLICT',
  'on-hold': 'CONFLICT',
  'in-use': 'CONFLICT',
  'too-many': 'TOO_MANY_REQUESTS',
  busy: 'SERVICE_UNAVAILABLE',
  'disk-full': 'SERVICE_UNAVAILABLE',
  'store-failed': 'SERVICE_UNAVAILABLE',
  'file-kind': 'UNSUPPORTED_MEDIA_TYPE',
  'file-heic': 'UNSUPPORTED_MEDIA_TYPE',
  'file-unreadable': 'UNPROCESSABLE_CONTENT',
  'file-too-large': 'PAYLOAD_TOO_LARGE',
  'file-damaged': 'UNPROCESSABLE_CONTENT',
  'picture-too-big': 'UNPROCESSABLE_CONTENT',
  'clip-too-long': 'UNPROCESSABLE_CONTENT',
} as const satisfies Record<DomainErrorCode, TRPC_ERROR_CODE_KEY>;
