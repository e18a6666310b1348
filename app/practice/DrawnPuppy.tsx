import { useId, useMemo } from 'react';
import type { PracticePicture } from '#lib/contract/practice';
import { type Drawing, drawPuppy, framingOf, pathData } from '#lib/photo/drawing/drawPuppy';
import { type Colour, coats, type PuppyShape, usualShape } from '#lib/photo/drawing/puppyShape';
import styles from './practice.module.css';

const paint = ([red, green, blue]: Colour) => `rgb(${red} ${green} ${blue})`;

/** One of the two drawn puppies, set up and seen from its right side. */
export function DrawnPuppy({ picture, label }: { readonly picture: PracticePicture; readonly label: string }) {
  const id = useId();
  const { pieces, width, height } = useMemo(() => drawPractice(picture), [picture]);
  return (
    <svg viewBox={`0 0 ${width} ${height}`} className={styles.picture} role="img" aria-label={label}>
      <defs>
        {pieces.map(({ top, bottom }, at) => (
          <linearGradient key={at} id={`${id}${at}`} x1="0" y1="0" x2="0" y2="1">
            <stop offset="0" stopColor={paint(top)} />
            <stop offset="1" stopColor={paint(bottom)} />
          </linearGradient>
        ))}
      </defs>
      {pieces.map((piece, at) => (
        <path key={at} d={pathData(piece)} fill={`url(#${id}${at})`} fillRule="nonzero" />
      ))}
    </svg>
  );
}

/** Drawn, so that the truth is known: one puppy close to square, one long and low. */
export const practiceShapes: Readonly<Record<PracticePicture, PuppyShape>> = {
  first: { ...usualShape, lengthHeight: 1.02, leg: 0.5, depth: 0.46, muzzleSkull: 0.85 },
  second: { ...usualShape, height: 262, lengthHeight: 1.24, leg: 0.43, depth: 0.5, muzzleSkull: 0.68 },
};

const practiceCoats = { first: coats.oat, second: coats.fox } as const;

function drawPractice(picture: PracticePicture): Drawing {
  const shape = practiceShapes[picture];
  return drawPuppy(
    shape,
    practiceCoats[picture],
    framingOf(shape, 'right-side', { turn: 0, distance: 2600, tooHigh: 0 }),
  );
}

export const pictureWords: Readonly<Record<PracticePicture, string>> = {
  first: 'First picture',
  second: 'Second picture',
};
