import { z } from 'zod';
import { decisionViewSchema } from '#lib/contract/decisionView';
import { idSchema } from '#lib/contract/id';
import { mayDecideNow, mayPick, nextSlotId } from '#lib/evaluation/decidePick';
import { standingOf } from '../../commands/standingOf';
import { reading } from '../access';
import { memberProcedure } from '../trpc';

/** Holds and picks, from reveal on. */
export const get = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(decisionViewSchema)
  .query(({ ctx, input }) => {
    const { facts, viewer } = reading(ctx, input.id);
    const { holds, decisions } = standingOf(ctx.runtime, facts);
    const next = nextSlotId(facts, decisions);
    const deciding = mayDecideNow(facts) === null;
    return {
      holds: [...holds],
      decisions: [...decisions],
      nextSlotId: next,
      mayDecide: deciding && next !== null && mayPick(facts, viewer, next),
      maySeal: deciding && next === null && viewer.owner,
    };
  });
