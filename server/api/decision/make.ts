import { z } from 'zod';
import { idSchema } from '#lib/contract/id';
import { paragraph } from '#lib/contract/text';
import { decidePick } from '#lib/evaluation/decidePick';
import { makeDecision } from '../../commands/makeDecision';
import { isDecided } from '#db/queries/isDecided';
import { refuse } from '../../commands/refuse';
import { standingOf } from '../../commands/standingOf';
import { readResult } from '../../reveal/readResult';
import { madeId } from '../callId';
import { accessTo } from '../access';
import { done, doneSchema } from '../done';
import { memberProcedure } from '../trpc';

export const make = memberProcedure
  .input(z.strictObject({ id: idSchema, slotId: idSchema, puppyId: idSchema.nullable(), reason: paragraph(500), preference: z.boolean() }))
  .output(doneSchema)
  .mutation(async ({ ctx, input: { id, ...pick } }) => {
    const { facts, viewer } = accessTo(ctx, id);
    const decisionId = madeId(ctx);
    if (isDecided(ctx.runtime.db, decisionId)) return done;
    // Refused before anything is computed; decided again inside the writing transaction.
    refuse(decidePick(facts, pick, standingOf(ctx.runtime, facts)));
    const { reconciliation } = await readResult(ctx.runtime, facts);
    const panels = reconciliation.slots.find((slot) => slot.key === pick.slotId)?.chances[0]?.puppy ?? null;
    makeDecision(ctx.runtime, { ...pick, decisionId, evaluationId: id, viewer, panelsPuppyId: panels });
    return done;
  });
