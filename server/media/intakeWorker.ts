import { DomainError } from '#lib/errors';
import type { IntakeReply, Upload } from './intake';
import { takeIn } from './takeIn';

async function replyTo(upload: Upload): Promise<IntakeReply> {
  try {
    return { media: await takeIn(upload) };
  } catch (error) {
    if (error instanceof DomainError) return { refusal: { code: error.code, details: error.details } };
    const code = error instanceof Error && 'code' in error ? String(error.code) : undefined;
    return { fault: { message: error instanceof Error ? (error.stack ?? error.message) : String(error), code } };
  }
}

process.on('message', (upload: Upload) => void replyTo(upload).then((reply) => process.send?.(reply)));
// A signal to the whole group, as a terminal or a service manager sends it, comes here as well: the server says when this ends.
for (const signal of ['SIGINT', 'SIGTERM'] as const) process.on(signal, () => undefined);
process.once('disconnect', () => process.exit(0));
