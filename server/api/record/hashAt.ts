import { z } from 'zod';
import { findRecordHash } from '#db/queries/findRecordHash';
import { hashSchema } from '#lib/contract/commitment';
import { idSchema } from '#lib/contract/id';
import { accessTo } from '../access';
import { memberProcedure } from '../trpc';

/**
 * The hash of one line of the record, for a device that saw it as the head and asks whether it still stands. The record is
 * one chain for the whole data file: a hash tells nothing of a line that belongs to another evaluation.
 */
export const hashAt = memberProcedure
  .input(z.strictObject({ id: idSchema, seq: z.int().min(0).max(Number.MAX_SAFE_INTEGER) }))
  .output(z.strictObject({ hash: hashSchema.nullable() }))
  .query(({ ctx, input }) => {
    accessTo(ctx, input.id);
    return { hash: findRecordHash(ctx.runtime.db, input.seq) ?? null };
  });
