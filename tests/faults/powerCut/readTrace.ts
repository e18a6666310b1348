/** One step of a program's talk with the disk, in order. Paths are absolute. */
export type Step =
  | { readonly kind: 'create'; readonly path: string }
  | { readonly kind: 'write'; readonly path: string; readonly offset: number; readonly data: Buffer }
  | { readonly kind: 'truncate'; readonly path: string; readonly size: number }
  | { readonly kind: 'remove'; readonly path: string }
  | { readonly kind: 'sync'; readonly path: string }
  /** What the program said on its output: an acknowledgement. */
  | { readonly kind: 'said'; readonly text: string };

const bytes = (escaped: string) => Buffer.from(escaped.replaceAll('\\x', ''), 'hex');

/** Reads what `strace -xx` wrote of one thread: which file got which bytes when, and when it was synced. */
export function readTrace(trace: string): Step[] {
  const open = new Map<number, string>();
  const steps: Step[] = [];
  for (const line of trace.split('\n')) {
    const call = /^(?:\d+ +)?(\w+)\((.*)\) += (-?\d+)/.exec(line);
    if (!call?.[1] || call[2] === undefined || Number(call[3]) < 0) continue;
    const [name, args, result] = [call[1], call[2], Number(call[3])];
    const handle = Number(/^\d+/.exec(args)?.[0] ?? -1);
    const path = open.get(handle);
    const text = /"((?:\\x[0-9a-f]{2})*)"/.exec(args)?.[1] ?? '';
    switch (name) {
      case 'openat':
        open.set(result, bytes(text).toString());
        if (args.includes('O_CREAT')) steps.push({ kind: 'create', path: bytes(text).toString() });
        break;
      case 'close':
        open.delete(handle);
        break;
      case 'pwrite64':
        if (path !== undefined)
          steps.push({ kind: 'write', path, offset: Number(/(\d+)$/.exec(args)?.[1]), data: bytes(text) });
        break;
      case 'ftruncate':
        if (path !== undefined) steps.push({ kind: 'truncate', path, size: Number(/(\d+)$/.exec(args)?.[1]) });
        break;
      case 'unlink':
        steps.push({ kind: 'remove', path: bytes(text).toString() });
        break;
      case 'fsync':
      case 'fdatasync':
        if (path !== undefined) steps.push({ kind: 'sync', path });
        break;
      case 'write':
        if (handle === 1) steps.push({ kind: 'said', text: bytes(text).toString() });
        break;
    }
  }
  return steps;
}
