import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** A path in the project's folder, wherever the command was started from. */
export const fromRoot = (...parts) => join(root, ...parts);
