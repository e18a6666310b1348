'use client';

import { useSyncExternalStore } from 'react';
import { protocolVersion } from '#lib/contract/wire';
import { ViewStore } from './viewStore';

const heard = new ViewStore<{ readonly other: boolean }>({ other: false });

/** What the server's own answer says of its version; a server from before there was a version says nothing. */
export function hearVersion(said: string | null): void {
  if (said === null) return;
  const other = said !== String(protocolVersion);
  if (other !== heard.get().other) heard.change(() => ({ other }));
}

/** Whether the server runs another version than this page was made for, by its newest answer. */
export const isOtherVersion = (): boolean => heard.get().other;

export function useOtherVersion(): boolean {
  return useSyncExternalStore(heard.subscribe, isOtherVersion, () => false);
}
