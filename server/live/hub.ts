import type { LiveEvent } from '#lib/contract/liveEvent';

/** A doorbell for one audience: all members of the evaluation (null), or the devices of one seat. */
export type Announcement = {
  readonly seat: { readonly id: string; readonly owner: boolean } | null;
  readonly event: LiveEvent;
};

export type Hub = {
  announce(announcement: Announcement): void;
  /** Returns the way to unsubscribe. */
  subscribe(listener: (announcement: Announcement) => void): () => void;
  /** A device lost its session: its sockets must go at once. */
  dismiss(deviceId: string): void;
  onDismiss(listener: (deviceId: string) => void): () => void;
};

/** Passes announcements on within this process. Knows no socket library. */
export function createHub(): Hub {
  const listeners = new Set<(announcement: Announcement) => void>();
  const dismissals = new Set<(deviceId: string) => void>();
  return {
    announce: (announcement) => listeners.forEach((listener) => listener(announcement)),
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    dismiss: (deviceId) => dismissals.forEach((listener) => listener(deviceId)),
    onDismiss: (listener) => {
      dismissals.add(listener);
      return () => dismissals.delete(listener);
    },
  };
}
