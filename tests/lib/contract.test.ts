import { createHash } from 'node:crypto';
import { expect, it } from 'vitest';
import { z } from 'zod';
import { entrySchema } from '#lib/contract/entry';
import { liveEventSchema } from '#lib/contract/liveEvent';
import { protocolVersion } from '#lib/contract/wire';

/** The hash of the wire's schemas, by protocol version: change one, raise the version, add its hash. */
const pinned: Readonly<Record<number, string>> = { 1: 'f13b4e586cd055fd' };

it('BL3: the shape of entries and doorbells changes only with the protocol version', () => {
  const shapes = JSON.stringify([z.toJSONSchema(entrySchema, { io: 'input' }), z.toJSONSchema(liveEventSchema)]);
  expect(createHash('sha256').update(shapes).digest('hex').slice(0, 16)).toBe(pinned[protocolVersion]);
});

it('BL3: no doorbell has a field that could hold a score', () => {
  expect(Object.keys(liveEventSchema.shape)).toEqual(['evaluation', 'audience', 'phase', 'version', 'table']);
});
