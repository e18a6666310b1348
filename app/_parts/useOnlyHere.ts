'use client';

import { useMutation } from '@tanstack/react-query';
import { countUnsent } from '../_data/ownData';

/** Counts, when asked, what is on this device and not on the server (LV2): leaving loses it. */
export function useOnlyHere() {
  return useMutation({ mutationFn: countUnsent });
}
