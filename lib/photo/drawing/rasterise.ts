import type { Drawing, Piece } from './drawPuppy';
import type { Colour } from './puppyShape';
import type { Point } from '../pinhole';

const rowsPerPixel = 4;

/** A drawing as raw pixels, three bytes each (red, green, blue), row by row. Edges are smoothed: exact across, four steps down. */
export function rasterise(drawing: Drawing): Uint8Array {
  const { width, height, pieces } = drawing;
  const pixels = new Uint8Array(width * height * 3);
  const cover = new Float32Array(width);
  for (const piece of pieces) {
    const span = verticalSpan(piece, height);
    const edges = piece.polygons.flatMap(edgesOf);
    const rows = bucket(edges, span);
    for (let y = span.first; y < span.end; y += 1) {
      cover.fill(0);
      const near = rows[y - span.first] ?? [];
      for (let step = 0; step < rowsPerPixel; step += 1) addRow(cover, near, y + (step + 0.5) / rowsPerPixel);
      blend(
        pixels.subarray(y * width * 3, (y + 1) * width * 3),
        cover,
        shade(piece, (y - span.top) / Math.max(1, span.bottom - span.top)),
      );
    }
  }
  return pixels;
}

type Edge = {
  readonly x: number;
  readonly y: number;
  readonly slope: number;
  readonly until: number;
  readonly winding: 1 | -1;
};
type Span = { readonly top: number; readonly bottom: number; readonly first: number; readonly end: number };

function edgesOf(polygon: readonly Point[]): Edge[] {
  return polygon.flatMap((from, index): Edge[] => {
    const to = polygon[(index + 1) % polygon.length] ?? from;
    if (from.y === to.y) return [];
    const [upper, lower] = from.y < to.y ? [from, to] : [to, from];
    return [
      {
        x: upper.x,
        y: upper.y,
        until: lower.y,
        slope: (lower.x - upper.x) / (lower.y - upper.y),
        winding: from.y < to.y ? 1 : -1,
      },
    ];
  });
}

function verticalSpan({ polygons }: Piece, height: number): Span {
  const ys = polygons.flat().map((point) => point.y);
  const [top, bottom] = [Math.min(...ys), Math.max(...ys)];
  return { top, bottom, first: Math.max(0, Math.floor(top)), end: Math.min(height, Math.ceil(bottom)) };
}

/** For each row the edges that touch it. */
function bucket(edges: readonly Edge[], { first, end }: Span): Edge[][] {
  const rows: Edge[][] = Array.from({ length: Math.max(0, end - first) }, () => []);
  for (const edge of edges) {
    for (let y = Math.max(first, Math.floor(edge.y)); y < Math.min(end, Math.ceil(edge.until)); y += 1)
      rows[y - first]?.push(edge);
  }
  return rows;
}

/** Adds a quarter row: wherever the winding number is not zero. */
function addRow(cover: Float32Array, edges: readonly Edge[], y: number): void {
  const crossings = edges
    .filter((edge) => edge.y <= y && y < edge.until)
    .map((edge) => ({ x: edge.x + (y - edge.y) * edge.slope, winding: edge.winding }))
    .toSorted((one, other) => one.x - other.x);
  let winding = 0;
  let from = 0;
  for (const { x, winding: change } of crossings) {
    if (winding === 0) from = x;
    winding += change;
    if (winding === 0) addSpan(cover, Math.max(0, from), Math.min(cover.length, x));
  }
}

function addSpan(cover: Float32Array, from: number, to: number): void {
  for (let x = Math.floor(from); x < to; x += 1) {
    cover[x] = (cover[x] ?? 0) + (Math.min(to, x + 1) - Math.max(from, x)) / rowsPerPixel;
  }
}

function shade({ top, bottom }: Piece, share: number): Colour {
  const at = Math.max(0, Math.min(1, share));
  return [top[0] + (bottom[0] - top[0]) * at, top[1] + (bottom[1] - top[1]) * at, top[2] + (bottom[2] - top[2]) * at];
}

function blend(row: Uint8Array, cover: Float32Array, colour: Colour): void {
  cover.forEach((share, x) => {
    if (share <= 0) return;
    const part = Math.min(1, share);
    colour.forEach((value, channel) => {
      const at = x * 3 + channel;
      row[at] = Math.round((row[at] ?? 0) * (1 - part) + value * part);
    });
  });
}
