import type { Snapshot } from '../contract/snapshot';
import type { Criterion } from '../sheet/criterion';
import { quality } from '../sheet/sheet';

type Told = { readonly criterion: string; readonly words: string };

/** What the panel's scores say of one puppy in the sheet's own words, without a score. */
type HomeReading = {
  /** Ends of scales that a veterinary surgeon should see: they hold nothing, being scores and no checks. */
  readonly toShow: Told[];
  /** What came out as the breed asks, the best first; only where at least two seats scored it, and none of them far from it. */
  readonly strengths: Told[];
};

/** Ends of scales behind which something for a veterinary surgeon may hide: a bowed leg, a joint that tips or slips forward. */
const endsToShow: Readonly<Record<string, 'low' | 'tooLittle'>> = {
  'front-legs': 'low',
  'pasterns-and-front-feet': 'tooLittle',
  'hock-and-rear-pastern': 'low',
};

const mostStrengths = 4;

/**
 * What a home is told of the scores: of each criterion the middle of the seats' scores (the mean of the two middle ones), after a
 * second round the second ones where given. An end is told within one step of seven of it, or from degree two on.
 */
export function homeReading(
  { sheet, showings, answers }: Pick<Snapshot, 'sheet' | 'showings' | 'answers'>,
  puppyId: string,
): HomeReading {
  const shown = new Set(showings.filter((one) => one.puppyId === puppyId && !one.repeat).map(({ id }) => id));
  const read = sheet.criteria.flatMap((criterion) => {
    const scores = answers.flatMap(({ subject, body }) =>
      shown.has(subject) && body.kind === 'score' && body.criterion === criterion.key && body.value !== null
        ? [body.value]
        : [],
    );
    const middle = middleOf(scores);
    const qualityOf = (value: number) => quality(value, { twoSided: criterion.twoSided, ...sheet.scale });
    return middle === null
      ? []
      : [
          {
            criterion,
            middle,
            seats: scores.length,
            good: qualityOf(middle),
            worst: Math.min(...scores.map(qualityOf)),
          },
        ];
  });
  const step = (sheet.scale.high - sheet.scale.low) / 6;
  const best = read
    .filter(
      ({ seats, good, worst }) => seats >= 2 && good >= sheet.scale.high - step && worst >= sheet.scale.high - 2 * step,
    )
    .toSorted((a, b) => b.good - a.good);
  return {
    toShow: read.flatMap(({ criterion, middle }) => {
      const words = wordsOfEnd(criterion, { middle, low: sheet.scale.low + step });
      return words === null ? [] : [{ criterion: criterion.name, words }];
    }),
    strengths: best.slice(0, mostStrengths).map(({ criterion }) => ({
      criterion: criterion.name,
      words: criterion.twoSided ? criterion.anchors.asked : criterion.anchors.high,
    })),
  };
}

function wordsOfEnd(
  criterion: Criterion,
  { middle, low }: { readonly middle: number; readonly low: number },
): string | null {
  const end = endsToShow[criterion.key];
  if (end === undefined) return null;
  if (criterion.twoSided) return end === 'tooLittle' && middle <= -2 ? criterion.anchors.tooLittle : null;
  return end === 'low' && middle <= low ? criterion.anchors.low : null;
}

function middleOf(scores: readonly number[]): number | null {
  const sorted = scores.toSorted((a, b) => a - b);
  const [left, right] = [sorted[Math.ceil(sorted.length / 2) - 1], sorted[Math.floor(sorted.length / 2)]];
  return left === undefined || right === undefined ? null : (left + right) / 2;
}
