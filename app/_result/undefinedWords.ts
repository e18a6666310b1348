import type { UndefinedReason } from '#lib/stats/coefficient';

const words: Readonly<Record<UndefinedReason, string>> = {
  'no scores': 'no scores',
  'one rater': 'only one seat scored this',
  'fewer than two units': 'fewer than two puppies have scores',
  'fewer than two scores in every unit': 'no puppy has two scores',
  'no variation': 'every score is the same, so there is nothing to agree or disagree about',
  'no variation between units': 'the puppies do not differ here',
  'missing cells': 'needs every seat to have scored every puppy',
  'off the scale': 'a score lies between the steps of the scale',
  'fewer than two categories': 'only one answer was used',
  'chance agreement is certain': 'agreement by chance alone would be complete',
  'no pair of raters with a defined value': 'no two seats can be compared',
  'ratio needs scores of one sign': 'needs scores of one sign',
  'fewer than two comparisons in common': 'no two seats scored two puppies in common',
  'items not connected': 'the comparisons do not connect the puppies',
  'an item always or never wins': 'one puppy always or never wins',
  'fewer than two items': 'fewer than two puppies',
  'no ties': 'no ties',
  'only ties': 'only ties',
  'too few observations': 'too few scores',
  'fixed effects not estimable': 'too few scores',
  'no residual variation': 'nothing varies beyond what is already explained',
  'no convergence': 'the calculation did not settle',
};

/** Why a figure does not exist, in words for people; a reason that is words already stays as it is. */
export function undefinedWords(reason: string): string {
  return isKnown(reason) ? words[reason] : reason;
}

function isKnown(reason: string): reason is UndefinedReason {
  return Object.hasOwn(words, reason);
}
