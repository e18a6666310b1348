import type { Criterion } from '#lib/sheet/criterion';

export const evidenceWords: Readonly<Record<Criterion['evidence'][number], string>> = {
  'set-up': 'set up',
  'free-stance': 'standing by itself',
  movement: 'moving',
  hands: 'under the hand',
  photograph: 'in a photograph',
};

export const levelWords: Readonly<Record<Criterion['steadiness']['level'], string>> = {
  low: 'low: changes a good deal',
  medium: 'medium',
  high: 'high: tends to stay',
};
