import type { EntryBody } from '../contract/entry';

/** The graded value of an answer; null for everything that is no grade. */
export function gradeOf(body: EntryBody): number | null {
  return body.kind === 'score' || body.kind === 'free' || body.kind === 'overall' ? body.value : null;
}
