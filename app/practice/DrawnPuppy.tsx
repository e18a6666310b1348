import { useId, useMemo } from 'react';
import type { PracticePicture } from '#lib/contract/practice';
import { pathData } from '#lib/photo/drawing/drawPuppy';
import type { Colour } from '#lib/photo/drawing/puppyShape';
import styles from './practice.module.css';
import { drawPractice } from './practicePuppies';

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
