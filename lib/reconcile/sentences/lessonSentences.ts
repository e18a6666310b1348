import type { Lesson } from '../lesson/lesson';
import type { LessonPick } from '../lesson/lessonPick';
import { capitalised, listed, nameOf, type Names } from './readings';

const points = (value: number): string => Math.abs(value).toFixed(1);

/** What stands out between a learner's and a mentor's cards, one sentence each; that nothing does is a sentence too. */
export function lessonSentences({ level, criteria }: Pick<Lesson, 'level' | 'criteria'>, names: Names): string[] {
  const told = criteria
    .filter(({ beyond }) => beyond)
    .map(
      ({ criterion, difference, puppies }) =>
        `${capitalised(nameOf(names, criterion))}: the learner reads it ${points(difference ?? 0)} ${(difference ?? 0) > 0 ? 'higher' : 'lower'} on average over ${puppies} puppies, more than chance alone would give.`,
    );
  const nothing =
    'On no criterion do the two differ on average by more than chance alone would give on this many puppies.';
  return [levelSentence(level), ...(told.length > 0 ? told : [nothing]), ...orderSentences(criteria, names)];
}

const LEAST_PARTED = 3;
const MOST_ORDERS = 3;

/** Criteria on which most of what the mentor parts clearly is not parted so by the learner: counts of what they gave, no claim of a cause. */
function orderSentences(criteria: Lesson['criteria'], names: Names): string[] {
  return criteria
    .filter(({ parted, turned }) => parted >= LEAST_PARTED && 2 * turned > parted)
    .toSorted((a, b) => b.turned / b.parted - a.turned / a.parted || b.turned - a.turned)
    .slice(0, MOST_ORDERS)
    .map(
      ({ criterion, parted, turned }) =>
        `${capitalised(nameOf(names, criterion))}: of ${parted} pairs of puppies that the mentor parts by a third of the scale or more, the learner puts ${turned === parted ? 'all' : String(turned)} level or the other way round.`,
    );
}

function levelSentence(level: Lesson['level']): string {
  if ('undefined' in level) return 'Too few puppies were scored by both to say who scores higher in general.';
  if (level.low <= 0 && level.high >= 0) return 'Neither scores clearly higher in general.';
  return `The learner scores ${level.value > 0 ? 'higher' : 'lower'} in general, by ${points(level.value)} points (90% interval ${points(level.value > 0 ? level.low : level.high)} to ${points(level.value > 0 ? level.high : level.low)}); a level of one’s own changes no order.`;
}

type Chosen = {
  readonly place: number;
  readonly learnersPuppy: string | null;
  readonly mentorsPuppy: string | null;
  readonly pick: LessonPick | null;
};

/** "For place 1 the learner chose Fern, the mentor Moss. Topline and neck part them most." */
export function lessonPickSentence({ place, learnersPuppy, mentorsPuppy, pick }: Chosen, names: Names): string {
  const head = `For place ${place}`;
  if (learnersPuppy === null || mentorsPuppy === null) {
    const who =
      learnersPuppy === null && mentorsPuppy === null
        ? 'neither chose a puppy'
        : `${learnersPuppy === null ? 'the learner' : 'the mentor'} chose no puppy`;
    return `${head} ${who}: there is nothing to compare.`;
  }
  if (learnersPuppy === mentorsPuppy) return `${head} both chose ${nameOf(names, learnersPuppy)}.`;
  const chose = `${head} the learner chose ${nameOf(names, learnersPuppy)}, the mentor ${nameOf(names, mentorsPuppy)}.`;
  if (!pick) return `${chose} Their scores do not explain it: ask for the reason.`;
  const by = pick.by.map(
    ({ criterion, share }) => `${nameOf(names, criterion)} (${Math.round(100 * share)} of 100 parts)`,
  );
  return `${chose} Of what pulls that way in their scores, ${listed(by)} ${by.length === 1 ? 'weighs' : 'weigh'} most.`;
}
