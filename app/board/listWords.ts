const list = new Intl.ListFormat('en-GB', { type: 'conjunction' });

/** "Fern", "Fern and Moss", "Fern, Moss and Sorrel". */
export function listWords(words: readonly string[]): string {
  return list.format(words);
}
