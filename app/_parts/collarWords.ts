import type { Collar } from '#lib/contract/collar';

/** "blue collar", "no collar". */
export function collarWords(collar: Collar): string {
  return collar === 'none' ? 'no collar' : `${collar} collar`;
}
