import { entryBodySchema, type EntryBody } from '#lib/contract/entry';

/** What an entry says, kept as JSON in one column. */
export function parseBody(json: string): EntryBody {
  return entryBodySchema.parse(JSON.parse(json));
}
