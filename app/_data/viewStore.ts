/**
 * What a screen shows of something that works in the background. It changes only by a function of what it is at that
 * moment, so that work which waited cannot write back what it had read before: a tap made meanwhile stays.
 */
export class ViewStore<View extends object> {
  private view: View;
  private readonly listeners = new Set<() => void>();

  constructor(first: View) {
    this.view = first;
  }

  readonly get = (): View => this.view;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  change(step: (present: View) => View): void {
    this.view = step(this.view);
    for (const listener of this.listeners) listener();
  }
}
