import type { PurposeKey } from '#lib/contract/setup';

/** Three ends, no ladder. */
export const purposeWords: Readonly<Record<PurposeKey, string>> = {
  keep: 'show or breeding keep',
  working: 'working home',
  companion: 'companion home',
};
