import { createHash } from 'node:crypto';
import sharp from 'sharp';
import { coats, type PuppyShape, usualShape } from '#lib/photo/drawing/puppyShape';
import { type Drawing, type DrawnView, drawPuppy, framingOf } from '#lib/photo/drawing/drawPuppy';
import { rasterise } from '#lib/photo/drawing/rasterise';

/** How each puppy of the demo's invented litter is built, and its coat; the pictures are drawn from these figures and no others. */
export const demoShapes: Readonly<
  Record<string, { readonly coat: keyof typeof coats; readonly shape: Partial<PuppyShape> }>
> = {
  Fern: { coat: 'sand', shape: { lengthHeight: 1.11, leg: 0.49, depth: 0.48 } },
  Moss: { coat: 'fox', shape: { lengthHeight: 1.14, height: 282, width: 1.06 } },
  Sorrel: { coat: 'fox', shape: { lengthHeight: 1.08, leg: 0.5, depth: 0.46, muzzleSkull: 0.86 } },
  Sedge: { coat: 'sand', shape: { lengthHeight: 1.1, height: 288, width: 1.05 } },
  Yarrow: { coat: 'oat', shape: { lengthHeight: 1.11, muzzleSkull: 0.84 } },
  Heather: { coat: 'oat', shape: { lengthHeight: 1.16, leg: 0.46, depth: 0.5 } },
  Bramble: { coat: 'fox', shape: { lengthHeight: 1.06, height: 290, width: 1.1, muzzleSkull: 0.74 } },
  Teasel: { coat: 'oat', shape: { lengthHeight: 1.18, height: 256, leg: 0.45, depth: 0.49, width: 0.92 } },
  Burdock: { coat: 'sand', shape: { lengthHeight: 1.2, height: 280, leg: 0.44, depth: 0.51, width: 1.12 } },
};

export const demoViews = ['left-side', 'front', 'rear', 'head-side'] as const satisfies readonly DrawnView[];

const width = 1200;
const height = 800;

/** One picture of the demo: a careful photographer's, a few degrees off and a little too high, as pictures are. */
export function demoDrawing(name: string, view: (typeof demoViews)[number]): Drawing {
  const known = demoShapes[name];
  if (!known) throw new Error(`no puppy ${name}`);
  const shape = { ...usualShape, ...known.shape };
  const turn = ((name.charCodeAt(0) + view.length) % 9) - 4;
  const framing = framingOf(shape, view, { turn, distance: 2000, tooHigh: 80 });
  return drawPuppy(shape, coats[known.coat], { ...framing, width, height });
}

export type DemoPicture = {
  readonly bytes: Buffer;
  readonly width: number;
  readonly height: number;
  readonly hash: string;
  readonly placeholder: string;
};

export async function demoPicture(name: string, view: (typeof demoViews)[number]): Promise<DemoPicture> {
  const raw = { raw: { width, height, channels: 3 } } as const;
  const pixels = Buffer.from(rasterise(demoDrawing(name, view)));
  const bytes = await sharp(pixels, raw).webp({ quality: 76, effort: 6 }).toBuffer();
  const tiny = await sharp(pixels, raw).resize({ width: 12 }).webp({ quality: 40 }).toBuffer();
  return {
    bytes,
    width,
    height,
    hash: createHash('sha256').update(bytes).digest('hex'),
    placeholder: `data:image/webp;base64,${tiny.toString('base64')}`,
  };
}
