/** BL9: what counts only can and cannot do. */
export const countsOnlyCaution =
  'Counts only hides names, not people: with few seats, who said what can often be guessed, the more so where one of them saw or felt what the others could not.';
