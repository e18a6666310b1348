import type { RowFate } from '#lib/contract/importView';

type Fate = { readonly words: string; readonly passes: boolean };

/** What would become of a row. One row that cannot pass stops them all. */
export const fateWords: Readonly<Record<RowFate, Fate>> = {
  new: { words: 'will be written', passes: true },
  replaces: { words: 'will replace the score you gave before', passes: true },
  same: { words: 'is there already, nothing to do', passes: true },
  blank: { words: 'left blank, nothing to do', passes: true },
  'unknown-puppy': { words: 'no puppy of that name is shown in this round', passes: false },
  'unknown-criterion': { words: 'the sheet has no such criterion', passes: false },
  'another-seat': { words: 'belongs to another evaluator: only your own scores can be brought in', passes: false },
  'hands-only': { words: 'by hand only, and your seat does not touch', passes: false },
  withdrawn: { words: 'the puppy was withdrawn', passes: false },
  'off-step': { words: 'between two steps: only whole steps can be scored', passes: false },
};
