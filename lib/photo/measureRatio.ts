import { normalCdf } from '../stats/normalDistribution';
import { type Point, type Point3, project } from './pinhole';
import { type Landmark, pixelsBetween, type PixelSize, type Placing } from './placing';
import { landmarksOf, type RatioKey, ratios } from './ratio';

/** What is assumed about how the picture was taken; every figure in millimetres or degrees. */
export type PictureSetting = {
  /** How far a landmark is put wrong, as a standard deviation along each direction, at the puppy. */
  readonly landmarkError: number;
  /** The body is turned away from side-on by at most so many degrees, either way alike. */
  readonly turn: number;
  readonly distance: number;
  /** The camera stands above the middle of the body by at most so much. */
  readonly tooHigh: number;
};

/** A wriggling puppy photographed with care: trade practice, no published figure. */
export const carefulPicture: PictureSetting = { landmarkError: 5, turn: 10, distance: 2000, tooHigh: 200 };

export type RatioQuestion = {
  readonly key: RatioKey;
  readonly placing: Placing;
  readonly size: PixelSize;
  /** True length of the ratio's size segment; its usual value when nobody measured it. */
  readonly sizeMillimetres: number;
  readonly setting: PictureSetting;
};

export type MeasuredRatio = {
  /** As placed, uncorrected. */
  readonly placed: number;
  /** Middle and limits of the 90% interval once turn, camera and landmark error are allowed for. */
  readonly value: number;
  readonly low: number;
  readonly high: number;
};

type Unmeasured = { readonly undefined: 'a landmark is missing' | 'two landmarks coincide' };

type Placed = (landmark: Landmark) => Point;

/**
 * How far in front of the puppy's middle plane, towards the camera, a landmark lies on the side that is seen: as a share of
 * the height at the withers for the body. Those of the head lie in the middle plane. Common practice, no source.
 */
const nearerShare: Readonly<Record<Landmark, number>> = {
  shoulder: 0.1,
  breastbone: 0,
  buttock: 0.07,
  withers: 0,
  ground: 0.11,
  elbow: 0.13,
  brisket: 0.05,
  nose: 0,
  stop: 0,
  occiput: 0,
};

/**
 * One ratio from one placing, with the interval that holds the true ratio nine times in ten, if the picture was taken as
 * `setting` says. Log ratio = truth + pinhole distortion + landmark error; the distortion is averaged over turns and camera
 * heights that are equally likely within their limits, the error is normal with the spread that follows from the placing.
 *
 * @throws never: what cannot be measured is a value with its reason (ST1)
 */
export function measureRatio(question: RatioQuestion): MeasuredRatio | Unmeasured {
  const { key, placing, size } = question;
  const points = new Map<Landmark, Point>();
  for (const landmark of landmarksOf(key)) {
    const at = placing[landmark];
    if (!at) return { undefined: 'a landmark is missing' };
    points.set(landmark, at);
  }
  const at: Placed = (landmark) => points.get(landmark) ?? { x: 0, y: 0 };
  const { over, under, size: span } = ratios[key];
  if ([over, under, span].some(([from, to]) => pixelsBetween(at(from), at(to), size) < 1))
    return { undefined: 'two landmarks coincide' };
  const placed = pixelsBetween(at(over[0]), at(over[1]), size) / pixelsBetween(at(under[0]), at(under[1]), size);
  const perPixel = question.sizeMillimetres / pixelsBetween(at(span[0]), at(span[1]), size);
  const spread =
    question.setting.landmarkError *
    logGradient(key, at, { width: size.width * perPixel, height: size.height * perPixel });
  const centres = distortions(question, at, perPixel).map((factor) => Math.log(placed / factor));
  const quantile = (share: number) => Math.exp(mixtureQuantile(centres, spread, share));
  return { placed, value: quantile(0.5), low: quantile(0.05), high: quantile(0.95) };
}

/** Length of the gradient of the log ratio over all landmark coordinates, per millimetre; a shared landmark counts once, with both its pulls. */
function logGradient(key: RatioKey, at: Placed, scale: PixelSize): number {
  const { over, under } = ratios[key];
  const pull = new Map<Landmark, { x: number; y: number }>();
  for (const [segment, sign] of [
    [over, 1],
    [under, -1],
  ] as const) {
    const [from, to] = segment;
    const x = (at(to).x - at(from).x) * scale.width;
    const y = (at(to).y - at(from).y) * scale.height;
    const square = x * x + y * y;
    for (const [landmark, end] of [
      [from, -1],
      [to, 1],
    ] as const) {
      const before = pull.get(landmark) ?? { x: 0, y: 0 };
      pull.set(landmark, { x: before.x + (sign * end * x) / square, y: before.y + (sign * end * y) / square });
    }
  }
  return Math.sqrt([...pull.values()].reduce((sum, { x, y }) => sum + x * x + y * y, 0));
}

const turnSteps = 11;
const heightSteps = 3;

/** Apparent over true ratio for each equally likely way the picture may have been taken. */
function distortions({ key, size, setting }: RatioQuestion, at: Placed, perPixel: number): number[] {
  const landmarks = landmarksOf(key);
  const middle = { x: mean(landmarks.map((one) => at(one).x)), y: mean(landmarks.map((one) => at(one).y)) };
  const { over, under, usualMillimetres } = ratios[key];
  const solid = (landmark: Landmark): Point3 => ({
    x: (at(landmark).x - middle.x) * size.width * perPixel,
    y: -(at(landmark).y - middle.y) * size.height * perPixel,
    z: nearerShare[landmark] * usualMillimetres,
  });
  const found: number[] = [];
  for (let turn = 0; turn < turnSteps; turn += 1) {
    for (let step = 0; step < heightSteps; step += 1) {
      const camera = {
        azimuth: setting.turn * (((turn + 0.5) / turnSteps) * 2 - 1),
        distance: setting.distance,
        height: (setting.tooHigh * (step + 0.5)) / heightSteps,
        aim: { x: 0, y: 0, z: 0 },
      };
      const seen = ([from, to]: readonly [Landmark, Landmark]) => {
        const [one, other] = [project(solid(from), camera), project(solid(to), camera)];
        return Math.hypot(one.x - other.x, one.y - other.y);
      };
      const plain = ([from, to]: readonly [Landmark, Landmark]) =>
        Math.hypot(solid(from).x - solid(to).x, solid(from).y - solid(to).y);
      found.push(seen(over) / seen(under) / (plain(over) / plain(under)));
    }
  }
  return found;
}

/** The point below which a share of an equal mixture of normals lies, by halving. */
function mixtureQuantile(centres: readonly number[], spread: number, share: number): number {
  if (spread === 0)
    return centres.toSorted((a, b) => a - b)[Math.min(centres.length - 1, Math.floor(share * centres.length))] ?? 0;
  let low = Math.min(...centres) - 6 * spread;
  let high = Math.max(...centres) + 6 * spread;
  for (let step = 0; step < 30; step += 1) {
    const middle = (low + high) / 2;
    if (mean(centres.map((centre) => normalCdf((middle - centre) / spread))) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;

/** A published figure as far as a measurement needs it. */
type Band = { readonly low: number; readonly high: number };

const figure = (value: number): string => value.toFixed(2);

/** What was measured and how far it can be trusted: "In this picture body length is 1.06 times height at the withers; nine times in ten …" */
export function ratioSentence(key: RatioKey, { value, low, high }: MeasuredRatio): string {
  const { overWords, underWords } = ratios[key];
  return `In this picture ${overWords} is ${figure(value)} times ${underWords}; nine times in ten the true ratio lies between ${figure(low)} and ${figure(high)}.`;
}

/**
 * A prompt, never a score, and no more than the interval allows (ST4): only an interval wholly outside the band asks for
 * another picture. Standards describe grown dogs.
 */
export function ratioPrompt(key: RatioKey, { low, high }: MeasuredRatio, band: Band): string {
  const { looks } = ratios[key];
  const range = `the published ${figure(band.low)} to ${figure(band.high)} for grown dogs`;
  if (low > band.high) return `Looks ${looks.high} in this picture, beside ${range}; re-shoot?`;
  if (high < band.low) return `Looks ${looks.low} in this picture, beside ${range}; re-shoot?`;
  if (low >= band.low && high <= band.high) return `Within ${range}.`;
  return `This picture cannot tell it from ${range}.`;
}
