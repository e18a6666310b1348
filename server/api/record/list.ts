import { z } from 'zod';
import { listRecord } from '#db/queries/listRecord';
import { withoutNames } from '#lib/blind/codedPuppies';
import { recordEntrySchema } from '#lib/contract/decisionView';
import { idSchema } from '#lib/contract/id';
import { seesCodes } from '#lib/evaluation/seesCodes';
import { accessTo } from '../access';
import { memberProcedure } from '../trpc';

/** What happened, in order: who opened, locked, revealed, decided. Never a score; to a seat that sees codes, never a puppy's name. */
export const list = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(z.array(recordEntrySchema))
  .query(({ ctx, input }) => {
    const { facts, viewer } = accessTo(ctx, input.id);
    const lines = listRecord(ctx.runtime.db, facts.id);
    return seesCodes(facts, viewer) ? lines.map((line) => ({ ...line, detail: withoutNames(line.detail, facts.puppies) })) : lines;
  });
