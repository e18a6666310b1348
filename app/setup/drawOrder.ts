/** The ids in an order drawn by chance, every order equally likely (Fisher and Yates, from memory). */
export function drawOrder(ids: readonly string[]): string[] {
  const order = [...ids];
  for (let last = order.length - 1; last > 0; last -= 1) {
    const other = below(last + 1);
    const [a, b] = [order[last], order[other]];
    if (a === undefined || b === undefined) continue;
    order[last] = b;
    order[other] = a;
  }
  return order;
}

/** A whole number from 0 to just under `bound`; draws that would favour the small ones are thrown away. */
function below(bound: number): number {
  const most = Math.floor(0x1_0000_0000 / bound) * bound;
  for (;;) {
    const [draw] = crypto.getRandomValues(new Uint32Array(1));
    if (draw !== undefined && draw < most) return draw % bound;
  }
}
