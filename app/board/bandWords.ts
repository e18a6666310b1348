import type { AgreementBand } from '#lib/reconcile/agreementBand';

/** How far the panel agrees on a criterion, decided on an interval, in a word. */
export const bandWords: Readonly<Record<AgreementBand, string>> = {
  low: 'low',
  medium: 'medium',
  high: 'high',
  'too-few': 'too few data',
};
