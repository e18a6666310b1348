import type { CheckAnswer, CheckKey } from './check';
import { checkByKey } from './checkByKey';

/** The answer a check offers under this key, if it does. */
export function answerOf(check: CheckKey, answer: string): CheckAnswer | undefined {
  return checkByKey(check)?.answers.find(({ key }) => key === answer);
}
