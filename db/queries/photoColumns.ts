import type { photo } from '../schemaPhoto';

/** A row of the table of pictures. */
export type PhotoRow = typeof photo.$inferSelect;
