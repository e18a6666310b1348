import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { picturesFolder } from '#db/picturesFolder';
import { insertPhoto } from '#db/queries/insertPhoto';
import { shotSchema } from '#lib/contract/photo';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import type { Runtime } from '../runtime';

const pictureSchema = z.strictObject({
  puppy: z.string(),
  view: shotSchema,
  file: z.string().regex(/^[a-z-]+\.webp$/),
  width: z.int(),
  height: z.int(),
  hash: z.string(),
  placeholder: z.string(),
});

type Hanging = { readonly folder: string; readonly evaluations: readonly EvaluationFacts[] };

/** Puts the drawn pictures of the invented litter into a copy: one of each view, by the photographer, under names of their own. */
export function hangPictures({ db, random }: Runtime, { folder, evaluations }: Hanging): void {
  const place = picturesFolder(db);
  mkdirSync(place, { recursive: true, mode: 0o700 });
  const pictures = z.array(pictureSchema).parse(JSON.parse(readFileSync(join(folder, 'pictures.json'), 'utf8')));
  for (const { puppy: name, view, file, ...facts } of pictures) {
    const own = random.id();
    writeFileSync(join(place, own), readFileSync(join(folder, file)), { mode: 0o600 });
    for (const evaluation of evaluations) {
      const puppy = evaluation.puppies.find((one) => one.name === name);
      if (!puppy) continue;
      const at = Date.parse(evaluation.heldOn);
      const seatId = evaluation.seats.find((seat) => seat.kind === 'photographs')?.id ?? null;
      const kept = { kind: 'picture', contentType: 'image/webp', takenAt: at, receivedAt: at, fair: 1, keeper: 1 } as const;
      insertPhoto(db, { ...facts, ...kept, id: random.id(), evaluationId: evaluation.id, puppyId: puppy.id, view, seatId, file: own, thumb: own });
    }
  }
}
