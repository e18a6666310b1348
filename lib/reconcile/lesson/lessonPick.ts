import type { Panel, PurposeQuestion } from '../panel/panel';
import { scoreQuality } from '../panel/plainMean';

/** What made a learner prefer another puppy than the mentor, criterion by criterion. */
export type LessonPick = {
  readonly learnersPuppy: string;
  readonly mentorsPuppy: string;
  /** How far the two part on these two puppies: the learner's lead of its own puppy less the mentor's, in weighted points. */
  readonly parting: number;
  /** The criteria that part them most, at most two, with their share of everything that pulls that way. */
  readonly by: readonly { readonly criterion: string; readonly share: number }[];
};

const MOST = 2;

/**
 * Splits the difference between two evaluators' leads of one puppy over another into criteria. The weighted mean is linear in the scores, so
 * each criterion's own term is its Shapley value and no order of exchange matters. Only criteria that both scored on both puppies
 * count, weights scaled to them; null when there is none, or when nothing pulls towards the learner's puppy.
 */
export function lessonPick(
  panel: Panel,
  purpose: PurposeQuestion,
  seats: {
    readonly learner: string;
    readonly mentor: string;
    readonly learnersPuppy: string;
    readonly mentorsPuppy: string;
  },
): LessonPick | null {
  const { learner, mentor, learnersPuppy, mentorsPuppy } = seats;
  const criteria = new Map(panel.criteria.map((criterion) => [criterion.key, criterion]));
  const quality = new Map(
    panel.scores.map(({ evaluator, puppy, criterion, value }) => [
      JSON.stringify([evaluator, puppy, criterion]),
      scoreQuality(panel, value, criteria.get(criterion)),
    ]),
  );
  const lead = (evaluator: string, criterion: string) => {
    const [one, other] = [learnersPuppy, mentorsPuppy].map((puppy) =>
      quality.get(JSON.stringify([evaluator, puppy, criterion])),
    );
    return one === undefined || other === undefined ? null : one - other;
  };
  const terms = panel.criteria.flatMap(({ key: criterion }) => {
    const [own, theirs, weight] = [lead(learner, criterion), lead(mentor, criterion), purpose.weights[criterion] ?? 0];
    return own === null || theirs === null || weight <= 0 ? [] : [{ criterion, weight, term: weight * (own - theirs) }];
  });
  const weights = terms.reduce((sum, { weight }) => sum + weight, 0);
  const towards = terms.filter(({ term }) => term > 0).sort((a, b) => b.term - a.term);
  const pull = towards.reduce((sum, { term }) => sum + term, 0);
  if (!(pull > 0)) return null;
  return {
    learnersPuppy,
    mentorsPuppy,
    parting: terms.reduce((sum, { term }) => sum + term, 0) / weights,
    by: towards.slice(0, MOST).map(({ criterion, term }) => ({ criterion, share: term / pull })),
  };
}
