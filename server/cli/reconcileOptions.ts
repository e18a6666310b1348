import type { DegreeCosts } from '#lib/reconcile/panel/degreeCost';
import { readArguments } from './readArguments';

export type ReconcileOptions = {
  readonly scale: { readonly low: number; readonly high: number };
  readonly twoSided: ReadonlySet<string>;
  /** What 1, 2 and 3 degrees of a two-sided criterion cost, in sixths of the scale; null for straight costs. */
  readonly cost: DegreeCosts | null;
  /** Number of unconditional slots. */
  readonly keep: number;
  /** Weights by criterion; a criterion that is not named weighs 1. */
  readonly weights: ReadonlyMap<string, number>;
  readonly json: boolean;
  readonly files: readonly string[];
};

const mostSteps = 100;
const mostSlots = 100;

/** Reads `[--scale LOW..HIGH] [--two-sided c1,c2] [--cost a,b,c] [--keep N] [--weights c1=2,c3=0.5] [--json] FILE…`; else one line saying what is wrong. */
export function reconcileOptions(args: readonly string[]): ReconcileOptions | { fault: string } {
  const read = readArguments(args, {
    flags: ['--json'],
    values: ['--scale', '--two-sided', '--cost', '--keep', '--weights'],
  });
  if ('fault' in read) return read;
  const scale = readScale(read.values.get('--scale') ?? '1..7');
  if (!scale)
    return { fault: `--scale wants whole numbers LOW..HIGH, at most ${mostSteps} steps apart, such as 1..7.` };
  const twoSided = readNames(read.values.get('--two-sided'));
  if (!twoSided) return { fault: '--two-sided wants criteria separated by commas, each once.' };
  const cost = readCost(read.values.get('--cost'));
  if (cost === undefined)
    return {
      fault:
        '--cost wants what 1, 2 and 3 degrees cost in sixths of the scale, rising from above 0 to at most 6, such as 1,3,6.',
    };
  const keep = readCount(read.values.get('--keep') ?? '1');
  if (keep === null) return { fault: `--keep wants a whole number from 1 to ${mostSlots}.` };
  const weights = readWeights(read.values.get('--weights'));
  if (!weights)
    return {
      fault:
        '--weights wants criterion=number separated by commas, each once, no number below 0, such as neck=2,coat=0.5.',
    };
  return { scale, twoSided, cost, keep, weights, json: read.flags.has('--json'), files: read.files };
}

function readScale(text: string): ReconcileOptions['scale'] | null {
  const [, low, high] = /^(-?\d{1,6})\.\.(-?\d{1,6})$/.exec(text) ?? [];
  const [from, to] = [Number(low), Number(high)];
  return to > from && to - from <= mostSteps ? { low: from, high: to } : null;
}

/** Null when nothing was asked, undefined when it cannot be read. */
function readCost(text: string | undefined): DegreeCosts | null | undefined {
  if (text === undefined) return null;
  const parts = text.split(',').map((part) => (/^\s*(\d+\.?\d*|\.\d+)\s*$/.test(part) ? Number(part) : Number.NaN));
  const [one = Number.NaN, two = Number.NaN, three = Number.NaN] = parts;
  return parts.length === 3 && one > 0 && two >= one && three >= two && three <= 6 ? [one, two, three] : undefined;
}

function readCount(text: string): number | null {
  const count = /^\d{1,3}$/.test(text) ? Number(text) : 0;
  return count >= 1 && count <= mostSlots ? count : null;
}

/** Names as the files spell them: trimmed, in Unicode's composed form. */
const spelled = (name: string): string => name.trim().normalize('NFC');

function readNames(text: string | undefined): ReadonlySet<string> | null {
  const names = text === undefined ? [] : text.split(',').map(spelled);
  const once = new Set(names);
  return once.has('') || once.size < names.length ? null : once;
}

function readWeights(text: string | undefined): ReadonlyMap<string, number> | null {
  const weights = new Map<string, number>();
  for (const part of text === undefined ? [] : text.split(',')) {
    const [, name, weight] = /^(.+)=\s*(\d+\.?\d*|\.\d+)\s*$/.exec(part) ?? [];
    const criterion = spelled(name ?? '');
    if (criterion === '' || weights.has(criterion)) return null;
    weights.set(criterion, Number(weight));
  }
  return weights;
}
