import type { SeededRandom } from '#lib/stats/seededRandom';
import type { Step } from './readTrace';

const sector = 512;

type Change = Extract<Step, { kind: 'write' | 'truncate' }>;
type File = { durable: Buffer; pending: Change[] /** Whether its name is on the disk for certain. */; named: boolean };

/** How a cut treats what was not synced: nothing of it is there, all of it, or each write is there, missing or torn by chance. */
export type Cut = 'nothing' | 'everything' | 'by chance';

/**
 * A disk that keeps its promises and not more: bytes are there for certain once their file was synced, a new file's name
 * once its folder was. What was not synced may be there in any part, whole writes or sectors of 512 bytes of them. The
 * model of SQLite's own crash tests (sqlite.org/testing.html, "Crash Testing").
 */
export type Disk = { take(step: Step): void; image(cut: Cut, random: SeededRandom): ReadonlyMap<string, Buffer> };

export function createDisk(start: ReadonlyMap<string, Buffer>, folder: string): Disk {
  const files = new Map<string, File>(
    [...start].map(([path, durable]) => [path, { durable, pending: [], named: true }]),
  );
  return {
    take: (step) => {
      if (step.kind === 'said' || !step.path.startsWith(folder)) return;
      const file = files.get(step.path);
      switch (step.kind) {
        case 'create':
          if (!file) files.set(step.path, { durable: Buffer.alloc(0), pending: [], named: false });
          break;
        case 'write':
        case 'truncate':
          file?.pending.push(step);
          break;
        case 'remove':
          throw new Error(`the writer removed ${step.path}: this disk does not model that`);
        case 'sync':
          if (step.path === folder) for (const one of files.values()) one.named = true;
          if (!file) break;
          file.durable = file.pending.reduce(changed, file.durable);
          file.pending = [];
          break;
      }
    },
    image: (cut, random) => {
      const image = new Map<string, Buffer>();
      for (const [path, file] of files) {
        const there = file.named || cut === 'everything' || (cut === 'by chance' && random.below(2) === 0);
        if (there)
          image.set(
            path,
            file.pending.reduce((content, change) => surviving(content, change, { cut, random }), file.durable),
          );
      }
      return image;
    },
  };
}

function changed(content: Buffer, change: Change): Buffer {
  if (change.kind === 'truncate')
    return Buffer.concat([content.subarray(0, change.size), Buffer.alloc(Math.max(0, change.size - content.length))]);
  const next = Buffer.alloc(Math.max(content.length, change.offset + change.data.length));
  content.copy(next);
  change.data.copy(next, change.offset);
  return next;
}

function surviving(
  content: Buffer,
  change: Change,
  { cut, random }: { readonly cut: Cut; readonly random: SeededRandom },
): Buffer {
  if (cut === 'nothing') return content;
  const fate = cut === 'everything' ? 0 : random.below(3);
  if (fate === 0) return changed(content, change);
  if (fate === 1 || change.kind === 'truncate') return content;
  // Torn: some sectors of the write are there and some are not.
  const torn = Buffer.from(change.data);
  for (let start = 0; start < torn.length; start += sector) {
    if (random.below(2) === 0) continue;
    const old = content.subarray(change.offset + start, change.offset + Math.min(start + sector, torn.length));
    torn.fill(0, start, Math.min(start + sector, torn.length));
    old.copy(torn, start);
  }
  return changed(content, { ...change, data: torn });
}
