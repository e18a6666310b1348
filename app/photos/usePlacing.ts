'use client';

import { useState, type KeyboardEvent } from 'react';
import type { Point } from '#lib/photo/pinhole';

const steps: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
};
const small = 0.004;
const large = 0.04;

export type Placing = {
  /** Where the cross stands, in shares of the picture. */
  readonly cross: Point;
  readonly onTap: (at: Point) => void;
  readonly onKey: (event: KeyboardEvent) => boolean;
};

/** Puts places on a picture: by a tap, or with a cross that the arrow keys move (Shift: further) and Enter sets down. */
export function usePlacing(onPlace: (at: Point) => void, mirrored: boolean): Placing {
  const [cross, setCross] = useState<Point>({ x: 0.5, y: 0.5 });
  const held = (value: number) => Math.min(1, Math.max(0, value));
  return {
    cross,
    onTap: (at) => {
      setCross(at);
      onPlace(at);
    },
    onKey: ({ key, shiftKey }) => {
      if (key === 'Enter' || key === ' ') {
        onPlace(cross);
        return true;
      }
      const step = steps[key];
      if (!step) return false;
      const by = shiftKey ? large : small;
      setCross({ x: held(cross.x + step.x * by * (mirrored ? -1 : 1)), y: held(cross.y + step.y * by) });
      return true;
    },
  };
}
