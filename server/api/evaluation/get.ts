import { z } from 'zod';
import { findRecordHead } from '#db/queries/findRecordHead';
import { getVersion } from '#db/queries/getVersion';
import { listCommitments } from '#db/queries/listCommitments';
import { evaluationView } from '#lib/blind/evaluationView';
import { evaluationViewSchema } from '#lib/contract/evaluationView';
import { idSchema } from '#lib/contract/id';
import { DomainError } from '#lib/errors';
import { accessTo } from '../access';
import { memberProcedure } from '../trpc';

export const get = memberProcedure
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
  });
