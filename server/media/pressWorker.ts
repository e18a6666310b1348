import { DomainError } from '#lib/errors';
import { pressImage } from './pressImage';
import type { PressReply } from './press';

async function replyTo(bytes: Uint8Array): Promise<PressReply> {
  try {
    return { image: await pressImage(Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength)) };
  } catch (error) {
    return { refusal: error instanceof DomainError && error.code === 'picture-too-big' ? error.code : 'file-unreadable' };
  }
}

process.on('message', (bytes: Uint8Array) => void replyTo(bytes).then((reply) => process.send?.(reply)));
// A signal from the terminal reaches children as well: the server says when this ends.
process.on('SIGINT', () => undefined);
process.once('disconnect', () => process.exit(0));
