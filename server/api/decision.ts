import { z } from 'zod';
import { isDecided } from '#db/queries/decisions';
import { getVersion } from '#db/queries/versions';
import { decisionViewSchema, holdChoiceSchema } from '#lib/contract/decisionView';
import { keySchema } from '#lib/contract/entry';
import { idSchema, line, paragraph } from '#lib/contract/fields';
import { decidePick, decideSeal, mayDecideNow, mayPick, nextSlotId } from '#lib/evaluation/pickOrder';
import { answerHold, makeDecision, sealEvaluation, standingOf, takeBackDecision } from '../commands/decisions';
import { refuse } from '../write/writeEvaluation';
import { readResult } from '../reveal/results';
import { accessTo, reading } from './access';
import { madeId } from './callId';
import { done, doneSchema, memberProcedure, ownerProcedure, router } from './trpc';

export const decisionRouter = router({
  /** What a veterinary surgeon said to a hold, and what the owner chooses on it; a later answer supersedes an earlier one. */
  answerHold: ownerProcedure
    .input(
      z.strictObject({
        id: idSchema,
        puppyId: idSchema,
        check: keySchema,
        answer: line(300, 1),
        by: line(80, 1),
        choice: holdChoiceSchema,
      }),
    )
    .output(doneSchema)
    .mutation(({ ctx, input: { id, ...answer } }) => {
      answerHold(ctx.runtime, { answerId: madeId(ctx), evaluationId: id, ...answer });
      return done;
    }),

  /** Holds and picks, from reveal on. */
  get: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(decisionViewSchema)
    .query(({ ctx, input }) => {
      const { facts, viewer } = reading(ctx, input.id);
      const { holds, unexamined, decisions } = standingOf(ctx.runtime, facts);
      const next = nextSlotId(facts, decisions);
      const deciding = mayDecideNow(facts) === null;
      return {
        holds: [...holds],
        unexamined: [...unexamined],
        decisions: [...decisions],
        nextSlotId: next,
        mayDecide: deciding && next !== null && mayPick(facts, viewer, next),
        maySeal: viewer.owner && decideSeal(facts, { decisions, holds }) === null,
      };
    }),

  make: memberProcedure
    .input(
      z.strictObject({
        id: idSchema,
        slotId: idSchema,
        puppyId: idSchema.nullable(),
        unexamined: z.array(keySchema).max(20),
        reason: paragraph(500),
        preference: z.boolean(),
      }),
    )
    .output(doneSchema)
    .mutation(async ({ ctx, input: { id, ...pick } }) => {
      const { runtime } = ctx;
      const decisionId = madeId(ctx);
      for (;;) {
        const { facts } = accessTo(ctx, id);
        if (isDecided(runtime.db, decisionId)) return done;
        // Refused before anything is computed; decided again inside the writing transaction.
        refuse(decidePick(facts, pick, standingOf(runtime, facts)));
        const asOf = getVersion(runtime.db, id, 'all');
        const { reconciliation } = await readResult(runtime, facts);
        // What the panel would have picked is that of the moment of the pick: what changed while it was computed is asked anew.
        if (getVersion(runtime.db, id, 'all') !== asOf) continue;
        const panels = reconciliation.slots.find((slot) => slot.key === pick.slotId)?.chances[0]?.puppy ?? null;
        makeDecision(ctx, { ...pick, decisionId, evaluationId: id, panelsPuppyId: panels });
        return done;
      }
    }),

  /** Seals the record, once every slot is decided. */
  seal: ownerProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      sealEvaluation(ctx.runtime, input.id);
      return done;
    }),

  /** Takes back the last pick. */
  takeBack: ownerProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      takeBackDecision(ctx.runtime, { evaluationId: input.id, decisionId: madeId(ctx) });
      return done;
    }),
});
