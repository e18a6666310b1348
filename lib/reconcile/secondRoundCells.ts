import { cellFlags } from './cellFlags';
import { flagThresholds } from './flags';
import type { Panel, PanelScore } from './panel';
import type { SlotResult } from './reconciliation';

export type AskAgain = { readonly puppy: string; readonly criterion: string };

/** More than these is a round about everything. */
const MOST_CELLS = 12;

/**
 * The cells worth asking again: those flagged as split, or as stacked against the free stance. Puppies that a close call is between come
 * first, since only there could a second answer change a pick; within that the widest first.
 */
export function secondRoundCells(panel: Panel, freeStances: readonly PanelScore[], slots: readonly Pick<SlotResult, 'close' | 'candidates'>[]): AskAgain[] {
  const inQuestion = new Set(slots.filter(({ close }) => close).flatMap(({ candidates }) => candidates.map(({ puppy }) => puppy)));
  const flagged = cellFlags(panel, freeStances, flagThresholds).map(({ puppy, criterion }) => ({ puppy, criterion }));
  const once = flagged.filter((cell, at) => flagged.findIndex((one) => one.puppy === cell.puppy && one.criterion === cell.criterion) === at);
  return [...once.filter(({ puppy }) => inQuestion.has(puppy)), ...once.filter(({ puppy }) => !inQuestion.has(puppy))].slice(0, MOST_CELLS);
}
