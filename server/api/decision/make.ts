import { z } from 'zod';
import { getVersion } from '#db/queries/getVersion';
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
    const { runtime } = ctx;
    const decisionId = madeId(ctx);
    for (;;) {
      const { facts, viewer } = accessTo(ctx, id);
      if (isDecided(runtime.db, decisionId)) return done;
      // Refused before anything is computed; decided again inside the writing transaction.
      refuse(decidePick(facts, pick, standingOf(runtime, facts)));
      const asOf = getVersion(runtime.db, id, 'all');
      const { reconciliation } = await readResult(runtime, facts);
      // What the panel would have picked is that of the moment of the pick: what changed while it was computed is asked anew.
      if (getVersion(runtime.db, id, 'all') !== asOf) continue;
      const panels = reconciliation.slots.find((slot) => slot.key === pick.slotId)?.chances[0]?.puppy ?? null;
      makeDecision(runtime, { ...pick, decisionId, evaluationId: id, viewer, panelsPuppyId: panels });
      return done;
    }
  });
