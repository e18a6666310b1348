import type { PuppyChance } from '../_parts/ChanceList';
import type { Faces } from './facesOf';

/** Chances with the faces they belong to. */
export function chancesOf(chances: readonly { readonly puppy: string; readonly probability: number }[], faces: Faces): PuppyChance[] {
  return chances.flatMap(({ puppy, probability }) => {
    const face = faces.puppy(puppy);
    return face ? [{ puppy: face, probability }] : [];
  });
}
