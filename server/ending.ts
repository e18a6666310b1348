export type Ending = {
  /** What is closed before the process ends; what was added last goes first. */
  add(close: () => Promise<void> | void): void;
  /** Says the line if there is one, closes everything and ends the process. Of several ends the worst code counts. */
  end(code: number, line?: string): Promise<void>;
};

type Surroundings = {
  readonly exit: (code: number) => void;
  readonly log: (line: string) => void;
  /** After a fault, how long closing may take. */
  readonly patience: number;
};

/** The one way out of the process: by a signal (0), after a failed start or a fault that nobody caught (not 0). */
export function createEnding({ exit, log, patience }: Surroundings): Ending {
  const open: (() => Promise<void> | void)[] = [];
  let [ending, worst] = [false, 0];
  return {
    add: (close) => void open.unshift(close),
    end: async (code, line) => {
      if (line !== undefined) log(line);
      worst = Math.max(worst, code);
      // In whatever state a fault left things, the process does not stay.
      if (code !== 0) setTimeout(() => exit(worst), patience).unref();
      if (ending) return;
      ending = true;
      for (const close of open) {
        try {
          await close();
        } catch (error) {
          log(`closing: ${error instanceof Error ? error.message : String(error)}`);
        }
      }
      exit(worst);
    },
  };
}
