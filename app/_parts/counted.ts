/** "1 puppy", "9 puppies": a count with its word. The plural is given where it is no plain s. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}
