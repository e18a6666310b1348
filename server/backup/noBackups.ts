import type { Backups } from './backups';

/** For data that are thrown away anyway: the demo's copies. */
export const noBackups: Backups = { ask: () => undefined, state: () => null, close: async () => undefined };
