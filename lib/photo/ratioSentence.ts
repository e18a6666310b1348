import type { MeasuredRatio } from './measureRatio';
import { ratios, type RatioKey } from './ratio';

/** A published figure as far as a measurement needs it. */
export type Band = { readonly low: number; readonly high: number };

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
