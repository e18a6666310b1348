import type { Piece } from './drawPuppy';

/** A piece as SVG path data, for fill rule nonzero. */
export function pathData({ polygons }: Pick<Piece, 'polygons'>): string {
  const place = ({ x, y }: { readonly x: number; readonly y: number }) => `${Number(x.toFixed(1))} ${Number(y.toFixed(1))}`;
  return polygons.map((polygon) => `M${polygon.map(place).join('L')}Z`).join('');
}
