import type { PurposeKey } from '#lib/contract/setup';

/** In the order they are offered; none stands above another. Written out here because the contract's own list brings all its checks along. */
export const purposeKeys: readonly PurposeKey[] = ['keep', 'working', 'companion'];
