import type { Panel } from '../panel/panel';
import type { AgendaItem } from '../merit/reconciliation';
import { capitalised, nameOf, readings, type Names } from './readings';

export type AgendaWords = {
  readonly panel: Panel;
  /** Names of puppies, evaluators, criteria, checks and slots, by key. */
  readonly names: Names;
};

/** What is to be talked about, and what that is expected to do: always an expectation over how it may turn out, never a promise. */
export function agendaSentence(item: AgendaItem, words: AgendaWords): string {
  return `${capitalised(subject(item.flag, words))}. ${effect(item, words.names)}`;
}

function effect({ between, slot, now, settled }: AgendaItem, names: Names): string {
  const [before, after] = [readings(now), readings(settled)];
  const place = nameOf(names, slot);
  const rivals = between?.map((puppy) => nameOf(names, puppy)).join(' and ');
  const settling = rivals === undefined ? 'Settling it' : `Knowing for certain which of ${rivals} is the better`;
  if (before === after)
    return `${settling} would hardly change how sure the pick for ${place} is: ${about(before)} of 100 readings.`;
  // One story: what second looks are expected to bring is told where they are prepared, and is part of this.
  const part = rivals === undefined ? '' : '; second looks, which are never certain, bring part of that';
  return `${settling} would be expected to make the likeliest pick for ${place} right in ${about(after)} of 100 readings, not ${before}${part}.`;
}

/** "at least 99" and "fewer than 1" are as rough as they need to be. */
function about(count: string): string {
  return /^\d+$/.test(count) ? `about ${count}` : count;
}

function subject(flag: AgendaItem['flag'], { panel, names }: AgendaWords): string {
  if (flag.kind === 'closeCall') return `${nameOf(names, flag.slot)} is too close to call`;
  if (flag.kind === 'oddEvaluator') return `${nameOf(names, flag.evaluator)} ${oddWords[flag.by]}`;
  const puppy = nameOf(names, flag.puppy);
  if (flag.kind === 'splitOnPuppy')
    return `the seats differ on ${puppy} as a whole, by ${points(flag.range)} once each seat’s level is allowed for`;
  if (flag.kind === 'splitCheck')
    return `the seats differ on ${puppy}'s ${nameOf(names, flag.check)}: not all found it normal`;
  const criterion = nameOf(names, flag.criterion);
  const unit = panel.criteria.find(({ key }) => key === flag.criterion)?.twoSided ? 'step' : 'point';
  if (flag.kind === 'stackAgainstFree')
    return `${puppy}'s ${criterion} was scored ${points(Math.abs(flag.gap), unit)} apart stacked and standing freely`;
  const opposite = flag.oppositeDirections ? ', to opposite sides of what is asked' : '';
  return `the seats differ by ${points(flag.range, unit)} on ${puppy}'s ${criterion}${opposite}`;
}

const oddWords = {
  severity: 'scores clearly off the panel’s level',
  liking: 'follows a liking for a puppy as a whole more than the others do',
  noise: 'scatters more than the others do',
} as const;

function points(value: number, unit: 'point' | 'step' = 'point'): string {
  const figure = String(Math.round(10 * value) / 10);
  return `${figure} ${unit}${figure === '1' ? '' : 's'}`;
}
