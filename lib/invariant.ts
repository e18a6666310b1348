/** Guards what cannot happen. A failure is a defect of ours, never of the person's input. */
export function invariant(condition: unknown, what: string): asserts condition {
  if (!condition) throw new Error(`invariant: ${what}`);
}
