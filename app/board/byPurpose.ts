import type { PurposeKey } from '#lib/contract/setup';

const order: readonly PurposeKey[] = ['keep', 'working', 'companion'];

/** Results by purpose in a fixed order, so that a page does not change its tabs from one evaluation to the next. */
export function byPurpose<Result extends { readonly key: PurposeKey }>(results: readonly Result[]): Result[] {
  return order.flatMap((key) => results.filter((result) => result.key === key));
}
