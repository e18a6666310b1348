import type { Criterion } from '#lib/sheet/criterion';
import { degreeWords } from './answerWords';
import type { KeyOption, KeyRow } from './KeyGrid';

type Scale = { readonly low: number; readonly high: number };
type Labels = { readonly low: string; readonly middle: string; readonly high: string };
export type KeyLayout = { readonly columns: number; readonly rows: readonly KeyRow[] };

export const cannotJudgeKey = 'cannot';

/** Keys of a one-sided scale of 3 to 11 steps, in three or four columns, with "cannot judge" filling the last row. */
export function oneSidedRows({ low, high }: Scale, labels: Labels): KeyLayout {
  const count = high - low + 1;
  const columns = count % 3 === 2 || count === 3 ? 3 : 4;
  const middle = (low + high) / 2;
  const options = Array.from({ length: count }, (_, index): KeyOption => {
    const value = low + index;
    const small =
      value === low ? labels.low : value === high ? labels.high : value === middle ? labels.middle : undefined;
    return {
      key: String(value),
      big: String(value),
      small,
      typed: value >= 0 && value <= 9 ? String(value) : undefined,
      columns: 1,
    };
  });
  return {
    columns,
    rows: [{ options: [...options, cannotJudge(columns - (count % columns), 'cannot judge from here')] }],
  };
}

/** Keys of a two-sided criterion: too little above, as asked between, too much below; stored as -3 … +3. */
export function twoSidedRows(labels: Extract<Criterion, { twoSided: true }>['labels']): KeyLayout {
  return {
    columns: 6,
    rows: [
      { heading: labels.tooLittle, options: [-3, -2, -1].map((value) => degree(value, labels.tooLittle)) },
      { options: [{ key: '0', big: 'as asked', typed: '0', columns: 4 }, cannotJudge(2, 'cannot judge')] },
      { heading: labels.tooMuch, options: [1, 2, 3].map((value) => degree(value, labels.tooMuch)) },
    ],
  };
}

function degree(value: number, side: string): KeyOption {
  const size = Math.abs(value);
  return {
    key: String(value),
    big: String(size),
    small: degreeWords[size],
    aloud: `${side},`,
    typed: String(value),
    columns: 2,
  };
}

function cannotJudge(columns: number, big: string): KeyOption {
  return { key: cannotJudgeKey, big, typed: 'c', columns, text: true };
}
