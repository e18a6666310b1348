/** What one evaluation's file may hold. Megabytes are 1,000,000 bytes. */
export const evaluationFileLimits = {
  jsonBytes: 60_000_000,
  wholeBytes: 1_000_000_000,
  pictures: 600,
  pictureBytes: 60_000_000,
} as const;

/** What a file of typed scores may be: rows under the heading, and bytes, so that it fits one call. */
export const importLimits = { rows: 10_000, bytes: 480_000 } as const;
