import { z } from 'zod';
import { listCommitments } from '#db/queries/commitments';
import { listEvaluations } from '#db/queries/evaluations';
import { findRecordHead } from '#db/queries/record';
import { getVersion } from '#db/queries/versions';
import { evaluationView } from '#lib/blind/evaluationView';
import { evaluationLineSchema, evaluationViewSchema } from '#lib/contract/evaluationView';
import { idSchema, line } from '#lib/contract/fields';
import { cellSchema } from '#lib/contract/plan';
import { DomainError } from '#lib/errors';
import {
  bringBackPuppy,
  closeRound,
  moveTable,
  openRound,
  openSecondRound,
  reopenRound,
  withdrawPuppy,
} from '../commands/rounds';
import { revealRound } from '../reveal/revealRound';
import { accessTo } from './access';
import { done, doneSchema, memberProcedure, ownerProcedure, router } from './trpc';

export const evaluationRouter = router({
  /** Ends scoring; seats that have not locked stand as they are. */
  closeRound: ownerProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      closeRound(ctx.runtime, input.id);
      return done;
    }),

  get: memberProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(evaluationViewSchema)
    .query(({ ctx, input }) => {
      const { facts, viewer } = accessTo(ctx, input.id);
      const { db } = ctx.runtime;
      const own = viewer.seatId === null ? 0 : getVersion(db, facts.id, `seat:${viewer.seatId}`);
      const view = evaluationView(facts, viewer, {
        versions: { all: getVersion(db, facts.id, 'all'), own },
        head: findRecordHead(db),
        commitments: facts.round ? listCommitments(db, facts.round.id) : [],
      });
      if (!view) throw new DomainError('not-found');
      return view;
    }),

  list: ownerProcedure
    .input(z.void())
    .output(z.array(evaluationLineSchema))
    .query(({ ctx }) => listEvaluations(ctx.runtime.db)),

  moveTable: memberProcedure
    .input(z.strictObject({ id: idSchema, showingId: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      moveTable(ctx, { evaluationId: input.id, showingId: input.showingId });
      return done;
    }),

  /** `unconfirmed` says that the owner opens although a party has not agreed to the pick order: it goes on the record. */
  openRound: ownerProcedure
    .input(z.strictObject({ id: idSchema, unconfirmed: z.boolean().default(false) }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      openRound(ctx.runtime, { evaluationId: input.id, unconfirmed: input.unconfirmed });
      return done;
    }),

  openSecondRound: ownerProcedure
    .input(z.strictObject({ id: idSchema, cells: z.array(cellSchema).min(1).max(60) }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      openSecondRound(ctx.runtime, { evaluationId: input.id, cells: input.cells });
      return done;
    }),

  /** Before reveal only, on the record. */
  reopenRound: ownerProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      reopenRound(ctx.runtime, input.id);
      return done;
    }),

  /** For good (BL7). */
  revealRound: ownerProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      revealRound(ctx.runtime, input.id);
      return done;
    }),

  bringBackPuppy: ownerProcedure
    .input(z.strictObject({ id: idSchema, puppyId: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      bringBackPuppy(ctx.runtime, { evaluationId: input.id, puppyId: input.puppyId });
      return done;
    }),

  withdrawPuppy: ownerProcedure
    .input(z.strictObject({ id: idSchema, puppyId: idSchema, reason: line(200) }))
    .output(doneSchema)
    .mutation(({ ctx, input }) => {
      withdrawPuppy(ctx.runtime, { evaluationId: input.id, puppyId: input.puppyId, reason: input.reason });
      return done;
    }),
});
