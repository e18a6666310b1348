export type BackupState = {
  /** When the newest good one was made, since the server started. */
  readonly lastAt: number | null;
  /** How many lie in the folder. */
  readonly kept: number;
  /** Whether older ones had to be given up for want of room on the disk. */
  readonly shortOfRoom: boolean;
  /** Of the newest attempt: the data could not be copied, or the data could and pictures could not. Null when it succeeded. */
  readonly failure: { readonly at: number; readonly what: 'data' | 'pictures'; readonly diskFull: boolean } | null;
};

export type Backups = {
  /** Something worth keeping has been committed: a backup follows. Never waits and never throws. */
  ask(): void;
  /** Null where no backups are made, as in the demo. */
  state(): BackupState | null;
  /** Ends the clock, lets a backup under way finish, and makes a last one when something changed since. Never throws. */
  close(): Promise<void>;
};

/** For data that are thrown away anyway: the demo's copies. */
export const noBackups: Backups = { ask: () => undefined, state: () => null, close: async () => undefined };
