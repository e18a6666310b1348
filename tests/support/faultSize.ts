/** True in `npm run check:long`, which names a folder for its parts: the fault tests then run at full size. */
export const fullSize = process.env.CHECK_LONG_FOLDER !== undefined;

/** Milliseconds: a full-size run may take some. */
export const hour = 3_600_000;

const base = Number(process.env.FAULT_SEED ?? 1);

/** The seed of the nth run; FAULT_SEED moves all of them, and plays a failure again when it is the seed that was printed. */
export function seedOfRun(run: number): number {
  return base + run;
}
