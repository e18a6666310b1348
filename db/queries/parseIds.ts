import { z } from 'zod';
import { idSchema } from '#lib/contract/id';

const idsSchema = z.array(idSchema);

/** Ids kept as a JSON list in one column. */
export function parseIds(json: string): string[] {
  return idsSchema.parse(JSON.parse(json));
}
