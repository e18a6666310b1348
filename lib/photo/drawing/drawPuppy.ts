import { type Camera, type Point, project } from '../pinhole';
import type { Landmark } from '../placing';
import { type Ellipsoid, hullOf, outlineOf, smoothChain } from './ellipsoid';
import { type Chain, puppyParts, type PuppyParts } from './puppyParts';
import { type Coat, type Colour, landmarksOfShape, type PuppyShape } from './puppyShape';

/** One flat piece of a drawing: the union of its polygons (fill rule nonzero), filled from top to bottom. */
export type Piece = { readonly polygons: readonly (readonly Point[])[]; readonly top: Colour; readonly bottom: Colour };

export type Drawing = {
  /** Pieces from back to front, in pixels. */
  readonly pieces: readonly Piece[];
  readonly width: number;
  readonly height: number;
  /** Where the landmarks are, in shares of width and height. */
  readonly landmarks: Readonly<Record<Landmark, Point>>;
};

type Framing = {
  readonly camera: Camera;
  readonly width: number;
  readonly height: number /** Millimetres at the aim across the width. */;
  readonly across: number;
};

const ink: Colour = [58, 46, 38];
const softInk: Colour = [96, 72, 52];
const wall: readonly [Colour, Colour] = [
  [240, 235, 225],
  [226, 219, 205],
];
const table: readonly [Colour, Colour] = [
  [203, 193, 175],
  [222, 214, 199],
];
const shadow: Colour = [176, 165, 146];
const dark: Colour = [38, 31, 28];
const glint: Colour = [250, 246, 238];

/** A puppy before a plain wall, as a camera sees it: pieces to fill, and where its landmarks truly are in the picture. */
export function drawPuppy(shape: PuppyShape, coat: Coat, framing: Framing): Drawing {
  const { camera, width, height, across } = framing;
  const perMillimetre = width / across;
  const place = ({ x, y }: Point): Point => ({ x: width / 2 + x * perMillimetre, y: height / 2 + y * perMillimetre });
  const line = Math.max(1.6, across / 420);
  const skin = (chains: readonly Chain[], by = 0) =>
    chains.flatMap((chain) => chainPolygons(chain, camera, by)).map((polygon) => polygon.map(place));
  const piece = (chains: readonly Chain[], top: Colour, bottom: Colour = top): Piece => ({
    polygons: skin(chains),
    top,
    bottom,
  });
  const inked = (chains: readonly Chain[], top: Colour, bottom: Colour = top): Piece[] => [
    { polygons: skin(chains, line), top: ink, bottom: ink },
    piece(chains, top, bottom),
  ];
  const pens = { piece, inked };
  const marks = landmarksOfShape(shape);
  const seen = (landmark: Landmark): Point => {
    const at = place(project(marks[landmark], camera));
    return { x: at.x / width, y: at.y / height };
  };
  const parts = puppyParts(shape);
  const keys = Object.keys(marks) as Landmark[];
  const landmarks = Object.fromEntries(keys.map((landmark) => [landmark, seen(landmark)])) as Record<Landmark, Point>;
  return {
    width,
    height,
    landmarks,
    pieces: [
      ...backdrop(framing, place),
      ...groundShadow(parts, pens),
      ...puppyPieces(parts, coat, { ...pens, camera }),
    ],
  };
}

function chainPolygons(chain: Chain, camera: Camera, by: number): Point[][] {
  const outlines = smoothChain(chain).map((part) => outlineOf(part, camera, by));
  if (outlines.length === 1) return outlines.map(hullOf);
  return outlines.slice(1).map((outline, index) => hullOf([...(outlines[index] ?? []), ...outline]));
}

function backdrop({ camera, width, height }: Framing, place: (point: Point) => Point): Piece[] {
  const all = (top: number, bottom: number): Point[] => [
    { x: 0, y: top },
    { x: width, y: top },
    { x: width, y: bottom },
    { x: 0, y: bottom },
  ];
  // The far edge of the table, half a metre behind the puppy.
  const turn = (camera.azimuth * Math.PI) / 180;
  const back = project(
    { x: camera.aim.x - 330 * Math.sin(turn), y: 0, z: camera.aim.z - 330 * Math.cos(turn) },
    camera,
  );
  const edge = Math.max(0, Math.min(height, place(back).y));
  return [
    { polygons: [all(0, height)], top: wall[0], bottom: wall[1] },
    { polygons: [all(edge, height)], top: table[0], bottom: table[1] },
  ];
}

type Pens = {
  readonly piece: (chains: readonly Chain[], top: Colour, bottom?: Colour) => Piece;
  readonly inked: (chains: readonly Chain[], top: Colour, bottom?: Colour) => Piece[];
};

function groundShadow({ frontLegs, hindLegs }: PuppyParts, { piece }: Pens): Piece[] {
  const feet = [...frontLegs, ...hindLegs].flatMap((leg) => leg.slice(-1));
  const mean = (pick: (foot: Ellipsoid) => number) => feet.reduce((sum, foot) => sum + pick(foot), 0) / feet.length;
  const reach = Math.max(...feet.map((foot) => Math.abs(foot.x - mean((one) => one.x))));
  return [piece([[{ x: mean((foot) => foot.x), y: 0, z: 0, rx: reach * 1.5, ry: 0.5, rz: reach * 0.62 }]], shadow)];
}

/** From back to front. From the side the body is one skin; from the ends the head or the hindquarters stand before it. */
function puppyPieces(
  parts: PuppyParts,
  coat: Coat,
  { piece, inked, camera }: Pens & { readonly camera: Camera },
): Piece[] {
  const turn = (camera.azimuth * Math.PI) / 180;
  const near = Math.cos(turn) >= 0 ? 0 : 1;
  const far = 1 - near;
  const { light, dark: deep } = coat;
  const rump = [...inked([parts.tail], light, deep), ...inked(parts.hindLegs, light, deep)];
  const front = [...inked(parts.frontLegs, light, deep)];
  const body = inked([parts.trunk], light, deep);
  const headSkin = [parts.skull, parts.muzzle];
  const face = [
    piece([parts.mask], coat.mask),
    ...(Math.abs(Math.cos(turn)) > 0.5 ? [piece([side(parts.mouth, near)], dark)] : []),
    ...inked([parts.noseTip], dark),
    ...[far, near].flatMap((at) =>
      seesEye(turn, at) ? [piece(one(parts.eyes, at), dark), piece(one(parts.glints, at), glint)] : [],
    ),
  ];
  const ears = [far, near].flatMap((at) => inked(one(parts.ears, at), coat.ear));
  if (Math.abs(Math.cos(turn)) > 0.6) {
    const whole = [parts.trunk, parts.neck, ...headSkin, ...one(parts.frontLegs, near), ...one(parts.hindLegs, near)];
    const farLegs = inked([...one(parts.frontLegs, far), ...one(parts.hindLegs, far)], coat.far);
    return [
      ...farLegs,
      ...inked([parts.tail], light, deep),
      ...inked(one(parts.ears, far), coat.far),
      ...inked(whole, light, deep),
      piece([...one(parts.thighLines, near), ...one(parts.elbowLines, near)], softInk),
      ...face,
      ...inked(one(parts.ears, near), coat.ear),
    ];
  }
  const head = [
    ...inked([parts.neck], light, deep),
    ...(coat.chest ? [piece([parts.chest], coat.chest)] : []),
    ...inked(headSkin, light, deep),
    ...ears,
    ...face,
  ];
  if (Math.sin(turn) > 0) return [...rump, ...body, ...front, ...head];
  return [
    ...inked([parts.neck, ...headSkin], light, deep),
    ...ears,
    ...front,
    ...body,
    ...inked(parts.hindLegs, light, deep),
    ...inked([parts.tail], light, deep),
  ];
}

const one = (pair: readonly [Chain, Chain], at: number): readonly Chain[] => pair.slice(at, at + 1);

/** The corner of the mouth is drawn on the side that is seen. */
const side = (chain: Chain, near: number): Chain =>
  chain.map((part) => ({ ...part, z: near === 0 ? part.z : -part.z }));

/** An eye shows from its own side and from in front. */
function seesEye(turn: number, at: number): boolean {
  const sideways = at === 0 ? 1 : -1;
  return sideways * Math.cos(turn) * 0.75 + Math.sin(turn) * 0.66 > 0.15;
}

export type DrawnView = 'right-side' | 'left-side' | 'front' | 'rear' | 'head-side' | 'head-front';

const azimuths: Readonly<Record<DrawnView, number>> = {
  'right-side': 0,
  'left-side': 180,
  front: 90,
  rear: 270,
  'head-side': 0,
  'head-front': 90,
};

type Taken = {
  /** Degrees by which the body is turned from what was asked. */
  readonly turn: number;
  readonly distance: number;
  /** Millimetres above the middle of the body. */
  readonly tooHigh: number;
};

/** A camera for one view of a puppy, so that it fills about two thirds of a picture three wide and two high. */
export function framingOf(shape: PuppyShape, view: DrawnView, { turn, distance, tooHigh }: Taken): Framing {
  const head = view === 'head-side' || view === 'head-front';
  const { nose, occiput, stop } = landmarksOfShape(shape);
  const aim = head
    ? {
        x: view === 'head-front' ? nose.x : (nose.x + occiput.x) / 2 - shape.height * 0.05,
        y: stop.y - shape.height * 0.12,
        z: 0,
      }
    : { x: view === 'front' || view === 'rear' ? 0 : shape.height * 0.12, y: shape.height * 0.62, z: 0 };
  const across = shape.height * (head ? 1.35 : 2.3);
  return {
    camera: { azimuth: azimuths[view] + turn, distance, height: aim.y + tooHigh, aim },
    width: 1500,
    height: 1000,
    across,
  };
}

/** A piece as SVG path data, for fill rule nonzero. */
export function pathData({ polygons }: Pick<Piece, 'polygons'>): string {
  const place = ({ x, y }: { readonly x: number; readonly y: number }) =>
    `${Number(x.toFixed(1))} ${Number(y.toFixed(1))}`;
  return polygons.map((polygon) => `M${polygon.map(place).join('L')}Z`).join('');
}
