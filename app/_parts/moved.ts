/** The list with the thing at `from` moved by `by` places; unchanged where that would leave the list. */
export function moved<Thing>(list: readonly Thing[], from: number, by: -1 | 1): readonly Thing[] {
  const [here, there] = [list[from], list[from + by]];
  if (here === undefined || there === undefined) return list;
  return list.map((thing, index) => (index === from ? there : index === from + by ? here : thing));
}
