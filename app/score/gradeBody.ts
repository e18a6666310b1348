import type { EntryBody } from '#lib/contract/entry';
import { cannotJudgeKey } from './scaleRows';
import type { Step } from './steps';

type Graded = Extract<Step, { kind: 'score' | 'free' | 'overall' }>;

/** The entry a key makes; null clears. */
export function gradeBody(step: Graded, key: string | null): EntryBody {
  const cannotJudge = key === cannotJudgeKey;
  const grade = { cannotJudge, value: key === null || cannotJudge ? null : Number(key) };
  return step.kind === 'overall' ? { kind: 'overall', ...grade } : { kind: step.kind, criterion: step.criterion.key, ...grade };
}

/** The key that a standing answer presses. */
export function gradeKey(body: EntryBody | null | undefined): string | null {
  if (body?.kind !== 'score' && body?.kind !== 'free' && body?.kind !== 'overall') return null;
  if (body.cannotJudge) return cannotJudgeKey;
  return body.value === null ? null : String(body.value);
}
