/** Does work after some milliseconds; answers the way to call it off. Handed in, so that a test has its own time. */
export type After = (milliseconds: number, work: () => void) => () => void;

export const after: After = (milliseconds, work) => {
  const timer = setTimeout(work, milliseconds);
  return () => clearTimeout(timer);
};

type Patience = { readonly milliseconds: number; readonly after: After; readonly words: string };

/** The work's own answer, or a rejection in these words once it has taken too long. The work itself goes on. */
export function inTime<T>(work: Promise<T>, { milliseconds, after: wait, words }: Patience): Promise<T> {
  return new Promise((resolve, reject) => {
    const cancel = wait(milliseconds, () => reject(new Error(words)));
    const settled =
      <V>(settle: (value: V) => void) =>
      (value: V) => {
        cancel();
        settle(value);
      };
    work.then(settled(resolve), settled<Error>(reject));
  });
}
