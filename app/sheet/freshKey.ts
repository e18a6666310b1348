/** A key for an own criterion, made from its name and told apart from those taken. */
export function freshKey(name: string, taken: readonly string[]): string {
  const plain = name
    .normalize('NFD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^[-0-9]+|-+$/g, '')
    .slice(0, 34)
    .replace(/-+$/, '');
  const base = plain === '' ? 'own' : plain;
  let key = base;
  for (let count = 2; taken.includes(key); count += 1) key = `${base}-${count}`;
  return key;
}
