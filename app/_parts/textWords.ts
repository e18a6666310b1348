const list = new Intl.ListFormat('en-GB', { type: 'conjunction' });

/** "Fern", "Fern and Moss", "Fern, Moss and Sorrel". */
export function listWords(words: readonly string[]): string {
  return list.format(words);
}

/** With a capital first letter, for the start of a line. */
export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** "1 puppy", "9 puppies": a count with its word. The plural is given where it is no plain s. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
