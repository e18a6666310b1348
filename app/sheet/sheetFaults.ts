import { criterionSchema } from '#lib/sheet/criterion';
import { sheetSchema } from '#lib/sheet/sheet';
import { capital } from '../_parts/textWords';

/** What is wrong, in words, by the place it stands at: `criteria.3.name`, `anchors.low`. Empty when nothing is. */
export type Faults = ReadonlyMap<string, string>;

type Issue = {
  readonly code: string;
  readonly path: readonly PropertyKey[];
  readonly message: string;
  readonly maximum?: unknown;
  readonly origin?: unknown;
};

/** The sheet as the server would judge it, before it is sent. */
export function sheetFaults(sheet: unknown): Faults {
  const read = sheetSchema.safeParse(sheet);
  return read.success ? new Map() : faultsOf(read.error.issues);
}

export function criterionFaults(criterion: unknown): Faults {
  const read = criterionSchema.safeParse(criterion);
  return read.success ? new Map() : faultsOf(read.error.issues);
}

function faultsOf(issues: readonly Issue[]): Faults {
  const faults = new Map<string, string>();
  for (const issue of issues) {
    const place = issue.path.join('.');
    if (!faults.has(place)) faults.set(place, wordsOf(issue));
  }
  return faults;
}

function wordsOf({ code, message, maximum, origin }: Issue): string {
  if (code === 'too_small') return origin === 'array' ? 'Choose at least one.' : 'This needs words.';
  if (code === 'too_big')
    return origin === 'array' ? `No more than ${String(maximum)}.` : `No more than ${String(maximum)} characters.`;
  return code === 'custom' ? `${capital(message)}.` : 'This cannot be used.';
}
