import type { EntryBody } from '../contract/entry';

/** The register an entry writes: one seat, one subject and one field hold one answer. */
export function entryField(body: EntryBody): string {
  switch (body.kind) {
    case 'score':
      return `score:${body.criterion}`;
    case 'free':
      return `free:${body.criterion}`;
    case 'check':
      return `check:${body.check}`;
    case 'note':
      return body.criterion === null ? 'note' : `note:${body.criterion}`;
    case 'overall':
    case 'manner':
    case 'fair':
    case 'choice':
      return body.kind;
  }
}
