import type { EvaluationFacts, RoundFacts } from './facts';

/** Revealed rounds a result is made from, oldest first: the first (or the lesson), then a second. Practice never counts. */
export function scoredRounds({ earlierRounds, round }: Pick<EvaluationFacts, 'earlierRounds' | 'round'>): readonly RoundFacts[] {
  return [...earlierRounds, ...(round ? [round] : [])].filter((one) => one.occasion !== 'practice' && one.state === 'revealed');
}
