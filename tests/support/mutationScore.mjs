const found = new Set(['Killed', 'Timeout']);
const missed = new Set(['Survived', 'NoCoverage']);

/** @returns {boolean} whether no test found this mutant */
export const isMissed = ({ status }) => missed.has(status);

/**
 * Of the mutants of some files: how many a test found, in percent of those that count. One that a comment excuses, or that
 * could not be run, counts on neither side; where nothing counts, nothing is shown, which is 0.
 */
export function scoreOf(mutants) {
  const counted = mutants.filter(({ status }) => found.has(status) || missed.has(status));
  const killed = counted.filter(({ status }) => found.has(status)).length;
  return {
    counted: counted.length,
    killed,
    apart: mutants.length - counted.length,
    percent: counted.length === 0 ? 0 : (100 * killed) / counted.length,
  };
}

/**
 * @param {Record<string, readonly string[]>} groups files by the name of their group
 * @param {readonly { fileName: string, status: string }[]} mutants
 * @returns {string[]} the groups whose share lies below the floor, in percent
 */
export function belowFloor(groups, mutants, floor) {
  return Object.keys(groups).filter(
    (name) => scoreOf(mutants.filter(({ fileName }) => groups[name].includes(fileName))).percent < floor,
  );
}
