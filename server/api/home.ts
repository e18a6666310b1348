import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { listAddenda } from '#db/queries/addenda';
import { getEvaluationFacts } from '#db/queries/evaluations';
import { getLitter } from '#db/queries/litters';
import { findHomeLink, listHomeLinks } from '#db/queries/links';
import { findPhoto } from '#db/queries/photos';
import { picturesFolder } from '#db/picturesFolder';
import { homeNoteView } from '#lib/blind/homeNoteView';
import { type HomeAlong, homeAlongSchema, type HomeNote, homeNoteSchema } from '#lib/contract/homeNote';
import { idSchema } from '#lib/contract/fields';
import { DomainError } from '#lib/errors';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { decideAlong, endHome, linkHome } from '../commands/litters';
import { standingOf } from '../commands/decisions';
import { hashToken } from '../random';
import { readSnapshot } from '../reveal/results';
import type { Runtime } from '../runtime';
import { refuse } from '../write/writeEvaluation';
import { accessTo } from './access';
import { done, doneSchema, ownerProcedure, publicProcedure, router } from './trpc';

export const homeRouter = router({
  /** Ends a home's link. */
  end: ownerProcedure
    .input(z.strictObject({ id: idSchema, puppyId: idSchema }))
    .output(doneSchema)
    .mutation(({ ctx, input: { id, puppyId } }) => {
      endHome(ctx.runtime, { evaluationId: id, puppyId });
      return done;
    }),

  /** The token goes into the fragment of the home's link; it is shown this once. */
  link: ownerProcedure
    .input(z.strictObject({ id: idSchema, puppyId: idSchema, along: homeAlongSchema }))
    .output(z.strictObject({ token: z.string() }))
    .mutation(({ ctx, input: { id, puppyId, along } }) => ({
      token: linkHome(ctx.runtime, { evaluationId: id, puppyId }, along),
    })),

  /** The puppies whose home has a link, with what goes along. */
  list: ownerProcedure
    .input(z.strictObject({ id: idSchema }))
    .output(z.array(homeAlongSchema.extend({ puppyId: idSchema })))
    .query(({ ctx, input }) => listHomeLinks(ctx.runtime.db, accessTo(ctx, input.id).facts.id)),

  /** The note as its home would see it, with what would go along. */
  preview: ownerProcedure
    .input(z.strictObject({ id: idSchema, puppyId: idSchema, along: homeAlongSchema }))
    .output(homeNoteSchema)
    .query(({ ctx, input: { id, puppyId, along } }) => {
      const { facts } = accessTo(ctx, id);
      refuse(decideAlong(ctx.runtime, facts, { puppyId, along }));
      return noteOf(ctx.runtime, facts, { puppyId, ...along });
    }),

  /** One puppy's note, for whoever has its home's link. A mutation, so that the link's secret is in no address and no log. */
  read: publicProcedure
    .input(z.strictObject({ token: z.string().regex(/^[A-Za-z0-9_-]{20,100}$/) }))
    .output(homeNoteSchema)
    .mutation(({ ctx: { runtime }, input }) => {
      const home = findHomeLink(runtime.db, hashToken(input.token));
      if (!home) throw new DomainError('link-dead');
      return noteOf(runtime, getEvaluationFacts(runtime.db, home.evaluationId), home);
    }),
});

async function noteOf(
  runtime: Runtime,
  facts: EvaluationFacts,
  { puppyId, contact, photoId }: HomeAlong & { readonly puppyId: string },
): Promise<HomeNote> {
  const { db } = runtime;
  const along = { contact, picture: await smallPicture(runtime, photoId) };
  const sealed = {
    facts,
    along,
    litter: getLitter(db, facts.litter.id),
    addenda: listAddenda(db, facts.id),
    scored: readSnapshot(runtime, facts).body,
    ...standingOf(runtime, facts),
  };
  return homeNoteView(sealed, puppyId);
}

/** Within the note: whoever has a home's link has no session, and a picture's own address opens to sessions only. */
async function smallPicture({ db }: Runtime, photoId: string | null): Promise<string | null> {
  const photo = photoId === null ? undefined : findPhoto(db, photoId);
  if (!photo || photo.thumb === null || photo.removedAt !== null) return null;
  const bytes = await readFile(join(picturesFolder(db), photo.thumb)).catch(() => null);
  return bytes && `data:${photo.contentType};base64,${bytes.toString('base64')}`;
}
