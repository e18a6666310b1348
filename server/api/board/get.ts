import { z } from 'zod';
import { countLateEntries } from '#db/queries/countLateEntries';
import { closedBatches } from '#db/queries/closedBatches';
import { listClearances } from '#db/queries/listClearances';
import { listRestores } from '#db/queries/listRestores';
import { boardView } from '#lib/blind/boardView';
import { boardViewSchema } from '#lib/contract/boardView';
import { idSchema } from '#lib/contract/id';
import { holdsOf } from '#lib/evaluation/holdsOf';
import { readResult } from '../../reveal/readResult';
import { reading } from '../access';
import { memberProcedure } from '../trpc';

/** The board, from reveal on; before it wrong-phase (BL6). */
export const get = memberProcedure
  .input(z.strictObject({ id: idSchema }))
  .output(boardViewSchema)
  .query(async ({ ctx: { runtime, device }, input }) => {
    const { facts, viewer } = reading({ runtime, device }, input.id);
    const { snapshot, first, second, looks, panel, reconciliation, bands, profiles } = await readResult(runtime, facts);
    const holds = holdsOf(snapshot, listClearances(runtime.db, facts.id));
    return boardView({
      snapshot, first, second, looks, panel, reconciliation, bands, profiles, holds,
      lateEntries: [first, ...(second ? [second] : [])].reduce((sum, { roundId }) => sum + countLateEntries(runtime.db, roundId), 0),
      restores: listRestores(runtime.db, facts.id),
      anonymous: facts.plan.discussion === 'anonymous',
      viewerSeatId: viewer.seatId,
      batches: { used: closedBatches(runtime.db, facts.id), agreed: facts.plan.lookBatches },
    });
  });
