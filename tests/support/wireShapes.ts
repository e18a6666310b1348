// `npx tsx tests/support/wireShapes.ts` pins the wire anew, once its version has been raised.
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import { liveEventSchema } from '#lib/contract/liveEvent';
import { photoTagSchema } from '#lib/contract/photo';
import { callHeader, protocolHeader, protocolVersion, serverMark } from '#lib/contract/wire';
import { domainErrorCodes } from '#lib/errors';
import { appRouter } from '#server/api/router';

type Definition = { readonly inputs: readonly unknown[]; readonly output?: unknown };
type Shapes = Readonly<Record<string, string>>;

/** What a page sends is pinned as it is typed, before defaults and trimming; what the server answers as it comes out. */
const shapeOf = (schema: unknown, io: 'input' | 'output') =>
  schema instanceof z.core.$ZodType ? hash(z.toJSONSchema(schema, { io, unrepresentable: 'any' })) : 'none';
const hash = (shape: unknown) => createHash('sha256').update(JSON.stringify(shape)).digest('hex').slice(0, 12);

/** Everything that crosses the wire, in both directions, by name: in two words what is sent and what is answered. */
export function shapesOfWire(procedures: Readonly<Record<string, unknown>> = appRouter._def.procedures): Shapes {
  const called = Object.entries(procedures).map(([path, procedure]): [string, string] => {
    // tRPC keeps the parsers on every procedure; its types show them only for procedures made by hand.
    const { inputs, output } = (procedure as { readonly _def: Definition })._def;
    return [path, `${shapeOf(inputs[0], 'input')} ${shapeOf(output, 'output')}`];
  });
  return {
    ...Object.fromEntries(called.toSorted(([one], [other]) => one.localeCompare(other))),
    'a doorbell': shapeOf(liveEventSchema, 'output'),
    'a picture’s address': shapeOf(photoTagSchema, 'input'),
    'headers and codes': hash([callHeader, protocolHeader, serverMark, domainErrorCodes]),
  };
}

const file = new URL('../../fixtures/wire.json', import.meta.url);
const pinnedSchema = z.strictObject({ about: z.string(), version: z.int(), shapes: z.record(z.string(), z.string()) });

export const readPinned = (): z.infer<typeof pinnedSchema> =>
  pinnedSchema.parse(JSON.parse(readFileSync(file, 'utf8')));

/** A version keeps the shapes it was pinned with: pages in use go by its number. */
function pin(): void {
  const { about, version, shapes } = readPinned();
  const now = shapesOfWire();
  if (version === protocolVersion && JSON.stringify(shapes) !== JSON.stringify(now))
    throw new Error('The wire has changed: raise protocolVersion in lib/contract/wire.ts first.');
  writeFileSync(file, `${JSON.stringify({ about, version: protocolVersion, shapes: now }, null, 2)}\n`);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) pin();
