/** The commands behind `npm run NAME`; each lives in server/cli/NAME.ts and exports NAMECommand. */
export const commands = ['reconcile', 'pairs', 'bench', 'calibrate', 'verify', 'restore', 'ownerLink', 'export'];
