'use client';

import { useSyncExternalStore } from 'react';

/** puppies: one puppy after another; across: one question across all puppies before the next. */
export type WorkOrder = 'puppies' | 'across';

const key = 'evenstack.work-order';
const listeners = new Set<() => void>();
/** Stands in for a store that this browser does not give. */
let chosenHere: WorkOrder | null = null;

/** In which order this device works through photographs; remembered by the browser. */
export function useWorkOrder(): readonly [WorkOrder, (order: WorkOrder) => void] {
  return [useSyncExternalStore(listen, read, () => 'puppies'), choose];
}

function listen(changed: () => void): () => void {
  listeners.add(changed);
  return () => listeners.delete(changed);
}

function read(): WorkOrder {
  if (chosenHere !== null) return chosenHere;
  try {
    return localStorage.getItem(key) === 'across' ? 'across' : 'puppies';
  } catch {
    return 'puppies';
  }
}

function choose(order: WorkOrder): void {
  chosenHere = order;
  try {
    localStorage.setItem(key, order);
  } catch {
    // Remembered in this page alone.
  }
  for (const changed of listeners) changed();
}
