import { project, type Camera, type Point, type Point3 } from '../pinhole';

/** A round part of a body: centre and half-axes in millimetres, forward, up and sideways. */
export type Ellipsoid = Point3 & { readonly rx: number; readonly ry: number; readonly rz: number };

const corners = 28;

/** The outline of an ellipsoid in the picture, as a polygon; grown all round by `by` millimetres for an ink line. */
export function outlineOf(part: Ellipsoid, camera: Camera, by: number): Point[] {
  const turn = (camera.azimuth * Math.PI) / 180;
  const pitch = Math.atan2(camera.height - camera.aim.y, camera.distance);
  const right = [Math.cos(turn), 0, -Math.sin(turn)] as const;
  const up = [-Math.sin(turn) * Math.sin(pitch), Math.cos(pitch), -Math.cos(turn) * Math.sin(pitch)] as const;
  const squares = [part.rx ** 2, part.ry ** 2, part.rz ** 2] as const;
  const spread = (one: typeof right | typeof up, other: typeof right | typeof up) =>
    one[0] * other[0] * squares[0] + one[1] * other[1] * squares[1] + one[2] * other[2] * squares[2];
  // The outline is the unit circle under the root of this 2 by 2 matrix (Cholesky).
  const a = Math.sqrt(spread(right, right));
  const b = spread(right, up) / a;
  const c = Math.sqrt(Math.max(0, spread(up, up) - b * b));
  const centre = project(part, camera);
  return Array.from({ length: corners }, (_, corner) => {
    const angle = (2 * Math.PI * corner) / corners;
    const [x, y] = [a * Math.cos(angle), b * Math.cos(angle) + c * Math.sin(angle)];
    const far = Math.hypot(x, y);
    const grown = far === 0 ? 0 : 1 + by / far;
    return { x: centre.x + x * grown * centre.scale, y: centre.y - y * grown * centre.scale };
  });
}

const between = 4;

/** A chain with parts put in between on a smooth curve through those given (Catmull and Rom), so that no joint shows as a corner. */
export function smoothChain(chain: readonly Ellipsoid[]): readonly Ellipsoid[] {
  if (chain.length < 3) return chain;
  return chain.flatMap((part, index) => {
    const next = chain[index + 1];
    if (!next) return [part];
    const before = chain[index - 1] ?? part;
    const after = chain[index + 2] ?? next;
    return Array.from({ length: between }, (_, step) => curve([before, part, next, after], step / between));
  });
}

function curve([before, from, to, after]: readonly [Ellipsoid, Ellipsoid, Ellipsoid, Ellipsoid], t: number): Ellipsoid {
  const value = (key: keyof Ellipsoid): number =>
    0.5 *
    (2 * from[key] +
      (to[key] - before[key]) * t +
      (2 * before[key] - 5 * from[key] + 4 * to[key] - after[key]) * t ** 2 +
      (3 * from[key] - before[key] - 3 * to[key] + after[key]) * t ** 3);
  const radius = (key: 'rx' | 'ry' | 'rz'): number => Math.max(0.1, value(key));
  return { x: value('x'), y: value('y'), z: value('z'), rx: radius('rx'), ry: radius('ry'), rz: radius('rz') };
}

/** The smallest convex polygon around some points, counter-clockwise in a picture (Andrew's monotone chain). */
export function hullOf(points: readonly Point[]): Point[] {
  const sorted = points.toSorted((one, other) => one.x - other.x || one.y - other.y);
  const half = (list: readonly Point[]) => {
    const chain: Point[] = [];
    for (const point of list) {
      while (chain.length > 1 && !turnsLeft(chain, point)) chain.pop();
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.toReversed())];
}

function turnsLeft(chain: readonly Point[], point: Point): boolean {
  const [before, last] = chain.slice(-2);
  if (!before || !last) return true;
  return (last.x - before.x) * (point.y - before.y) - (last.y - before.y) * (point.x - before.x) > 0;
}
