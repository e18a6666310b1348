import type { ImportPreview } from '#lib/contract/importView';
import { DomainError } from '#lib/errors';
import type { Runtime } from '../runtime';
import { planImport, type ImportText } from './planImport';
import { submitEntries } from './submitEntries';

/** Takes typed scores into the seat's own cards: every row or none. */
export function importScores(runtime: Runtime, source: ImportText): ImportPreview {
  const { preview, entries } = planImport(runtime, source);
  if (!preview.sound) throw new DomainError('bad-input', { rows: preview.rows.length });
  const madeAt = runtime.clock.now();
  submitEntries(runtime, {
    evaluationId: source.facts.id,
    from: { id: source.deviceId, owner: false, seatId: source.seat.id },
    entries: entries.map((entry) => ({ ...entry, id: runtime.random.id(), madeAt })),
  });
  return preview;
}
