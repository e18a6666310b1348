import type { PracticePicture } from '#lib/contract/practice';
import { coats, type PuppyShape, usualShape } from '#lib/photo/drawing/puppyShape';
import { type Drawing, drawPuppy, framingOf } from '#lib/photo/drawing/drawPuppy';

/** Drawn, so that the truth is known: one puppy close to square, one long and low. */
export const practiceShapes: Readonly<Record<PracticePicture, PuppyShape>> = {
  first: { ...usualShape, lengthHeight: 1.02, leg: 0.5, depth: 0.46, muzzleSkull: 0.85 },
  second: { ...usualShape, height: 262, lengthHeight: 1.24, leg: 0.43, depth: 0.5, muzzleSkull: 0.68 },
};

const practiceCoats = { first: coats.oat, second: coats.fox } as const;

export function drawPractice(picture: PracticePicture): Drawing {
  const shape = practiceShapes[picture];
  return drawPuppy(shape, practiceCoats[picture], framingOf(shape, 'right-side', { turn: 0, distance: 2600, tooHigh: 0 }));
}
