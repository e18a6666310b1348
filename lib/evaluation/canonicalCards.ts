import type { EntryBody } from '../contract/entry';
import { entryField } from './entryField';

export type Cards = {
  readonly roundId: string;
  readonly seatId: string;
  readonly answers: readonly { readonly subject: string; readonly body: EntryBody }[];
};

/**
 * One text for one seat's answers of one round, whatever their order. A commitment is SHA-256 over the 16 bytes of its
 * nonce followed by this text in UTF-8.
 *
 * Lines end in LF, the last one has none. The first is `["cards",1,round,seat]`; then one line an answer, sorted by UTF-16
 * code units: a JSON array without blanks of subject, field and what was said, in the order below; typing is trimmed, as it
 * is when it is taken in. JSON as ECMAScript's JSON.stringify writes it, so a line break in a note is `\n`.
 */
export function canonicalCards({ roundId, seatId, answers }: Cards): string {
  const lines = answers.map(({ subject, body }) => JSON.stringify([subject, entryField(body), ...said(body)]));
  return [JSON.stringify(['cards', 1, roundId, seatId]), ...lines.toSorted()].join('\n');
}

function said(body: EntryBody): (string | number | boolean | null)[] {
  switch (body.kind) {
    case 'score':
    case 'free':
    case 'overall':
      return [body.value, body.cannotJudge];
    case 'check':
      return [body.answer, body.detail.trim()];
    case 'note':
      return [body.text.trim()];
    case 'manner':
      return [body.manner];
    case 'fair':
      return [body.fair, body.why.trim()];
    case 'choice':
      return [body.puppy, body.reason.trim(), body.chance];
  }
}
