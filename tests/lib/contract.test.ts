import { expect, it } from 'vitest';
import { z } from 'zod';
import { liveEventSchema } from '#lib/contract/liveEvent';
import { protocolVersion } from '#lib/contract/wire';
import { readPinned, shapesOfWire } from '#tests/support/wireShapes';

it('BL3, LV2: what crosses the wire, sent or answered, has the shape that is pinned for this protocol version: change it, raise the version, pin it anew', () => {
  const { version, shapes } = readPinned();
  expect({ version: protocolVersion, shapes: shapesOfWire() }).toEqual({ version, shapes });
});

it('LV2: a change of either direction is seen', () => {
  const procedure = (input: z.ZodType, output: z.ZodType) => ({ _def: { inputs: [input], output } });
  const shape = (input: z.ZodType, output: z.ZodType) => shapesOfWire({ 'a.b': procedure(input, output) })['a.b'];
  const [plain, more] = [z.strictObject({ id: z.string() }), z.strictObject({ id: z.string(), at: z.int() })];
  expect(
    new Set([
      shape(plain, plain),
      shape(more, plain),
      shape(plain, more),
      shape(plain.extend({ id: z.string().max(3) }), plain),
    ]).size,
  ).toBe(4);
  expect(shape(plain, plain)).toBe(shape(z.strictObject({ id: z.string() }), z.strictObject({ id: z.string() })));
});

it('BL3: no doorbell has a field that could hold a score', () => {
  expect(Object.keys(liveEventSchema.shape)).toEqual(['evaluation', 'audience', 'phase', 'version', 'table']);
});
