/** Enough of a hash to compare two copies of a record by eye. */
export function hashHead(hash: string): string {
  return hash.slice(0, 12);
}
