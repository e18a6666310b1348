/** What may be sent. Megabytes are 1,000,000 bytes. */
export const photoLimits = {
  pictureBytes: 20_000_000 - 1,
  pixels: 50_000_000,
  clipBytes: 60_000_000,
  clipSeconds: 30,
  /** A clip that was stopped at 30 seconds may be a little over. */
  clipGrace: 1,
  perEvaluation: 600,
  note: 120,
} as const;
