import { meanInterval, slopeInterval, type Figure } from '../seats/leastSquaresInterval';

/** One finished lesson of a learner: the mean absolute difference from the mentor once the level is off, in points. */
export type PastLesson = { readonly heldOn: string; readonly gap: number };

export type LessonProgress = {
  readonly litters: number;
  /** Oldest first. */
  readonly lessons: readonly PastLesson[];
  /** Mean gap over litters, and its change from one litter to the next; 90% intervals, or "too few data". */
  readonly mean: Figure;
  readonly change: Figure;
};

const LEAST_LITTERS = 3;

/** Progress of a learner over litters; the number of litters always stands beside it. */
export function lessonProgress(lessons: readonly PastLesson[]): LessonProgress {
  const ordered = [...lessons].sort((one, other) => one.heldOn.localeCompare(other.heldOn));
  const enough = ordered.length >= LEAST_LITTERS;
  const few: Figure = { undefined: 'too few data' };
  return {
    litters: ordered.length,
    lessons: ordered,
    mean: enough
      ? meanInterval(
          ordered.map(({ gap }) => gap),
          0,
        )
      : few,
    change: enough ? slopeInterval(ordered.map(({ gap }, at) => ({ x: at, y: gap }))) : few,
  };
}
