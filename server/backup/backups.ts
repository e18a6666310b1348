export type BackupState = {
  readonly lastAt: number | null;
  readonly kept: number;
  /** Of the newest attempt; null when it succeeded. */
  readonly failure: { readonly at: number; readonly diskFull: boolean } | null;
};

export type Backups = {
  /** Something worth keeping has been committed: a backup follows. Never waits and never throws. */
  ask(): void;
  /** Null where no backups are made, as in the demo. */
  state(): BackupState | null;
  /** Ends the clock and lets a backup under way finish. */
  close(): Promise<void>;
};
