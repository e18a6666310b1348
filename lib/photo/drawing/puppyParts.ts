import type { Point3 } from '../pinhole';
import type { Ellipsoid } from './ellipsoid';
import { landmarksOfShape, type PuppyShape } from './puppyShape';

/** A chain of round parts, each joined to the next by the smoothest skin that holds both. */
export type Chain = readonly Ellipsoid[];

export type PuppyParts = {
  readonly trunk: Chain;
  readonly neck: Chain;
  readonly skull: Chain;
  readonly muzzle: Chain;
  readonly mask: Chain;
  readonly chest: Chain;
  readonly tail: Chain;
  readonly noseTip: Chain;
  readonly mouth: Chain;
  /** Right and left, in this order. */
  readonly frontLegs: readonly [Chain, Chain];
  readonly hindLegs: readonly [Chain, Chain];
  readonly ears: readonly [Chain, Chain];
  readonly eyes: readonly [Chain, Chain];
  readonly glints: readonly [Chain, Chain];
  readonly thighLines: readonly [Chain, Chain];
  readonly elbowLines: readonly [Chain, Chain];
};

type Place = readonly [x: number, y: number, z: number];
type Radii = readonly [rx: number, ry: number, rz: number];

/** A set-up puppy as chains of round parts, about its landmarks. Drawn by eye; only the landmarks are measured. */
export function puppyParts(shape: PuppyShape): PuppyParts {
  const { height: unit, width } = shape;
  const marks = landmarksOfShape(shape);
  const share = ({ x, y }: Point3) => ({ x: x / unit, y: y / unit });
  const round = ([x, y, z]: Place, [rx, ry, rz]: Radii): Ellipsoid => ({
    x: x * unit,
    y: y * unit,
    z: z * width * unit,
    rx: rx * unit,
    ry: ry * unit,
    rz: rz * width * unit,
  });
  const pair = (build: (side: 1 | -1) => Chain): readonly [Chain, Chain] => [build(1), build(-1)];
  const rig = {
    round,
    pair,
    at: {
      withers: share(marks.withers),
      shoulder: share(marks.shoulder),
      buttock: share(marks.buttock),
      brisket: share(marks.brisket),
      elbow: share(marks.elbow),
      nose: share(marks.nose),
      stop: share(marks.stop),
      occiput: share(marks.occiput),
    },
  };
  return { ...bodyParts(rig), ...legParts(rig), ...headParts(rig) };
}

type Spot = { readonly x: number; readonly y: number };
type Rig = {
  readonly round: (place: Place, radii: Radii) => Ellipsoid;
  readonly pair: (build: (side: 1 | -1) => Chain) => readonly [Chain, Chain];
  readonly at: Readonly<
    Record<'withers' | 'shoulder' | 'buttock' | 'brisket' | 'elbow' | 'nose' | 'stop' | 'occiput', Spot>
  >;
};

function bodyParts({
  round,
  at: { withers, shoulder, buttock, brisket, occiput, nose },
}: Rig): Pick<PuppyParts, 'trunk' | 'neck' | 'tail' | 'chest'> {
  const floor = brisket.y;
  const ribs = (withers.y - floor) / 2;
  const middle = (withers.y + floor) / 2;
  const belly = floor + 0.03;
  return {
    trunk: [
      round([shoulder.x - 0.12, 0.65, 0], [0.12, 0.16, 0.15]),
      round([withers.x, middle, 0], [0.17, ribs, 0.18]),
      round([(withers.x + buttock.x) / 2, (0.965 + belly) / 2, 0], [0.18, (0.965 - belly) / 2, 0.19]),
      round([buttock.x + 0.32, 0.765, 0], [0.16, 0.19, 0.165]),
      round([buttock.x + 0.165, 0.775, 0], [0.165, 0.175, 0.16]),
    ],
    neck: [
      round([withers.x + 0.05, 0.81, 0], [0.16, 0.18, 0.15]),
      round([(withers.x + occiput.x) / 2 + 0.07, 0.98, 0], [0.165, 0.15, 0.14]),
      round([occiput.x + 0.11, 1.12, 0], [0.14, 0.13, 0.135]),
    ],
    chest: [
      round([shoulder.x - 0.06, 0.68, 0], [0.05, 0.11, 0.07]),
      round([Math.min(shoulder.x + 0.03, nose.x), 0.86, 0], [0.05, 0.07, 0.06]),
    ],
    tail: [
      round([buttock.x + 0.07, 0.89, 0], [0.07, 0.06, 0.055]),
      round([buttock.x - 0.06, 0.79, 0.01], [0.058, 0.06, 0.05]),
      round([buttock.x - 0.115, 0.65, 0.02], [0.052, 0.06, 0.046]),
      round([buttock.x - 0.13, 0.53, 0.03], [0.04, 0.05, 0.04]),
      round([buttock.x - 0.15, 0.46, 0.03], [0.02, 0.022, 0.02]),
    ],
  };
}

function legParts({
  round,
  pair,
  at: { withers, elbow, buttock },
}: Rig): Pick<PuppyParts, 'frontLegs' | 'hindLegs' | 'thighLines' | 'elbowLines'> {
  const foot = withers.x;
  const hock = buttock.x - 0.015;
  return {
    frontLegs: pair((side) => [
      round([elbow.x + 0.11, 0.68, side * 0.09], [0.11, 0.13, 0.075]),
      round([elbow.x + 0.03, elbow.y + 0.03, side * 0.12], [0.085, 0.1, 0.07]),
      round([foot - 0.005, elbow.y - 0.16, side * 0.12], [0.075, 0.09, 0.07]),
      round([foot - 0.005, 0.18, side * 0.115], [0.067, 0.06, 0.064]),
      round([foot + 0.005, 0.1, side * 0.115], [0.064, 0.05, 0.062]),
      round([foot + 0.035, 0.045, side * 0.115], [0.092, 0.045, 0.076]),
    ]),
    hindLegs: pair((side) => [
      round([buttock.x + 0.19, 0.7, side * 0.08], [0.165, 0.19, 0.09]),
      round([buttock.x + 0.2, 0.52, side * 0.11], [0.12, 0.13, 0.075]),
      round([buttock.x + 0.14, 0.4, side * 0.12], [0.085, 0.085, 0.062]),
      round([hock + 0.035, 0.26, side * 0.12], [0.068, 0.07, 0.058]),
      round([hock + 0.025, 0.13, side * 0.12], [0.058, 0.06, 0.056]),
      round([hock + 0.07, 0.043, side * 0.12], [0.095, 0.043, 0.073]),
    ]),
    thighLines: pair((side) => [
      round([buttock.x + 0.33, 0.7, side * 0.15], [0.005, 0.005, 0.004]),
      round([buttock.x + 0.345, 0.58, side * 0.16], [0.006, 0.006, 0.004]),
      round([buttock.x + 0.3, 0.46, side * 0.16], [0.005, 0.005, 0.004]),
    ]),
    elbowLines: pair((side) => [
      round([elbow.x - 0.05, elbow.y + 0.16, side * 0.17], [0.004, 0.004, 0.004]),
      round([elbow.x - 0.065, elbow.y + 0.07, side * 0.18], [0.006, 0.006, 0.004]),
      round([elbow.x - 0.045, elbow.y - 0.015, side * 0.17], [0.005, 0.005, 0.004]),
    ]),
  };
}

function headParts({
  round,
  pair,
  at: { nose, stop, occiput },
}: Rig): Omit<
  PuppyParts,
  'trunk' | 'neck' | 'tail' | 'chest' | 'frontLegs' | 'hindLegs' | 'thighLines' | 'elbowLines'
> {
  const skull = stop.x - occiput.x;
  const along = (share: number, drop: number): readonly [number, number] => [
    stop.x + (nose.x - stop.x) * share,
    stop.y + (nose.y - stop.y) * share - drop,
  ];
  const [gapX, gapY] = along(0.02, 0.17);
  const [lipX, lipY] = along(0.84, 0.125);
  return {
    skull: [
      round([occiput.x + 0.135, occiput.y - 0.1, 0], [0.15, 0.145, 0.15]),
      round([stop.x - 0.12, stop.y - 0.07, 0], [0.135, 0.145, 0.145]),
      round([stop.x - 0.06, stop.y - 0.13, 0], [0.115, 0.11, 0.125]),
    ],
    muzzle: [
      round([...along(0, 0.12), 0], [0.1, 0.105, 0.1]),
      round([...along(0.5, 0.095), 0], [0.095, 0.09, 0.09]),
      round([...along(0.78, 0.07), 0], [0.075, 0.078, 0.082]),
    ],
    mask: [
      round([...along(0.24, 0.1), 0], [0.075, 0.08, 0.086]),
      round([...along(0.55, 0.09), 0], [0.085, 0.083, 0.087]),
      round([...along(0.78, 0.07), 0], [0.073, 0.076, 0.081]),
    ],
    noseTip: [
      round([nose.x - 0.033, nose.y - 0.018, 0], [0.033, 0.028, 0.04]),
      round([nose.x - 0.045, nose.y - 0.036, 0], [0.026, 0.022, 0.026]),
    ],
    mouth: [
      round([lipX, lipY, 0.055], [0.004, 0.004, 0.004]),
      round([(gapX + lipX) / 2, (gapY + lipY) / 2 - 0.014, 0.085], [0.006, 0.006, 0.004]),
      round([gapX, gapY + 0.012, 0.09], [0.005, 0.005, 0.004]),
    ],
    ears: pair((side) => [
      round([occiput.x + skull * 0.36, occiput.y - 0.02, side * 0.12], [0.075, 0.04, 0.035]),
      round([occiput.x + skull * 0.26, occiput.y - 0.12, side * 0.165], [0.098, 0.075, 0.032]),
      round([occiput.x + skull * 0.26, occiput.y - 0.215, side * 0.175], [0.075, 0.06, 0.03]),
      round([occiput.x + skull * 0.36, occiput.y - 0.275, side * 0.17], [0.035, 0.028, 0.02]),
    ]),
    eyes: pair((side) => [round([stop.x - 0.035, stop.y - 0.035, side * 0.072], [0.026, 0.03, 0.026])]),
    glints: pair((side) => [round([stop.x - 0.026, stop.y - 0.024, side * 0.072 + 0.008], [0.008, 0.008, 0.008])]),
  };
}
