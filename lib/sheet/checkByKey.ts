import type { Check } from './check';
import { checkCatalogue } from './checkCatalogue';

/** The check of this key, or undefined when there is none. */
export function checkByKey(key: string): Check | undefined {
  return checkCatalogue.find((check) => check.key === key);
}
