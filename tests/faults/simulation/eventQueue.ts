type Timed = { readonly at: number; readonly order: number; readonly work: () => void };

/**
 * Virtual time: work happens at its time, and what is due at the same time in the order it was planned. After each piece
 * every promise that it settled has run as far as it can, as between two events of a browser.
 */
export type EventQueue = {
  now(): number;
  plan(delay: number, work: () => void): void;
  runUntil(end: number): Promise<void>;
};

/** `afterEach` looks at the world once all is quiet again. */
export function createEventQueue(afterEach: () => void): EventQueue {
  const heap: Timed[] = [];
  let now = 0;
  let planned = 0;
  const before = (a: Timed, b: Timed) => a.at < b.at || (a.at === b.at && a.order < b.order);

  const push = (item: Timed) => {
    heap.push(item);
    for (let child = heap.length - 1; child > 0; ) {
      const parent = (child - 1) >> 1;
      if (!swapWhen(parent, child)) return;
      child = parent;
    }
  };
  /** Puts the earlier of the two on top; answers whether they changed places. */
  const swapWhen = (parent: number, child: number): boolean => {
    const [up, down] = [heap[parent], heap[child]];
    if (!up || !down || !before(down, up)) return false;
    heap[parent] = down;
    heap[child] = up;
    return true;
  };
  const pop = (): Timed | undefined => {
    const top = heap[0];
    const last = heap.pop();
    if (!top || !last || heap.length === 0) return top;
    heap[0] = last;
    for (let parent = 0; ; ) {
      const [left, right] = [2 * parent + 1, 2 * parent + 2];
      const [one, other] = [heap[left], heap[right]];
      const child = one && other && before(other, one) ? right : left;
      if (!swapWhen(parent, child)) return top;
      parent = child;
    }
  };
  const step = async () => {
    const next = pop();
    if (!next) return;
    now = next.at;
    next.work();
    await new Promise((resolve) => setImmediate(resolve));
    afterEach();
  };
  return {
    now: () => now,
    plan: (delay, work) => push({ at: now + delay, order: (planned += 1), work }),
    runUntil: async (end) => {
      while ((heap[0]?.at ?? Infinity) <= end) await step();
      now = Math.max(now, end);
    },
  };
}
