import type { PracticeAnswer, PracticePicture } from '../contract/practice';
import type { DomainErrorCode } from '../errors';
import { practiceCriteria } from '../sheet/shippedSheets';
import type { EvaluationFacts, SeatFacts } from './facts';

/** A seat locks its practice once, before scoring: every answer of an offered criterion, on its scale, each cell once. */
export function decidePractice(
  facts: EvaluationFacts,
  seat: SeatFacts,
  answers: readonly PracticeAnswer[],
): DomainErrorCode | null {
  if (seat.kind === 'none') return 'not-allowed';
  if (facts.phase !== 'preparing') return 'wrong-phase';
  const offered = practiceCriteria(facts.sheet);
  const cells = new Set(answers.map((answer) => `${answer.picture} ${answer.criterion}`));
  if (answers.length === 0 || cells.size !== answers.length) return 'bad-input';
  const faults = answers.map(({ criterion: key, value }): DomainErrorCode | null => {
    const criterion = offered.find((one) => one.key === key);
    if (!criterion) return 'bad-input';
    const { low, high } = criterion.twoSided ? { low: -3, high: 3 } : facts.sheet.scale;
    return value !== null && (value < low || value > high) ? 'out-of-scale' : null;
  });
  return faults.find((fault) => fault !== null) ?? null;
}

/** In the order they are shown. */
export const practicePictures: readonly PracticePicture[] = ['first', 'second'];
