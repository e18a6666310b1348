import { refusalDetails } from '../_parts/refusalDetails';

/** Where a file is wrong and how much more is, in words; null when the refusal is about something else. */
export function fileFault(error: unknown): string | null {
  const refusal = refusalDetails(error);
  if (refusal?.code !== 'bad-input') return null;
  const { line, column, message, more } = refusal.details;
  if (typeof line !== 'number' || typeof column !== 'number' || typeof message !== 'string') return null;
  const rest = typeof more === 'number' && more > 0 ? ` ${more} more ${more === 1 ? 'fault' : 'faults'} after that.` : '';
  return `Line ${line}, column ${column}: ${message}${rest} Nothing was read.`;
}
