import type { EvaluatorResult } from '../merit/reconciliation';
import { capitalised } from './readings';

/** How an evaluator's level compares: a direction only when the 90% interval excludes zero. */
export function severitySentence(evaluator: EvaluatorResult, name: string): string {
  const { severity } = evaluator;
  if ('undefined' in severity) return `${capitalised(name)}: no severity, because ${severity.undefined}.`;
  const side = severity.high < 0 ? 'below' : severity.low > 0 ? 'above' : null;
  if (side === null) return `${capitalised(name)}: no clear difference from the panel’s level.`;
  const [least, most] = [Math.abs(severity.low), Math.abs(severity.high)].sort((a, b) => a - b);
  return `${capitalised(name)} scores ${pointsInWords(severity.value)} ${side} the panel’s level (${points(least ?? 0)} to ${points(most ?? 0)} in 90 of 100 readings).`;
}

function points(value: number): string {
  return value.toFixed(1);
}

/** Size of a difference in plain words, to the nearest half point. */
export function pointsInWords(value: number): string {
  const halves = Math.round(2 * Math.abs(value));
  const words = [
    'less than a quarter of a point',
    'about half a point',
    'about a point',
    'about one and a half points',
  ];
  return words[halves] ?? `about ${halves / 2} points`;
}
