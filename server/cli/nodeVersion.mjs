// Old syntax on purpose: a Node that is too old must be able to read this file in order to say so.

export const oldestNode = '20.19.0';

/**
 * @param {string} version as in process.versions.node, e.g. '20.20.2'
 * @returns {string | undefined} one line for the person at the keyboard, or undefined when the version will do
 */
export function nodeComplaint(version) {
  const have = version.split('.').map(Number);
  const need = oldestNode.split('.').map(Number);
  for (let place = 0; place < need.length; place += 1) {
    if (have[place] > need[place]) return undefined;
    if (have[place] < need[place]) {
      return (
        'Evenstack needs Node ' +
        oldestNode +
        ' or later; this is Node ' +
        version +
        '. Install a newer Node and start again.'
      );
    }
  }
  return undefined;
}
