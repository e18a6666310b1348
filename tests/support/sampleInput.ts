import type { z } from 'zod';

/** Known values by field name, for inputs made from a schema alone: so a new procedure is covered at birth. */
export type KnownFields = Readonly<Record<string, unknown>>;

type Definition = {
  readonly type: string;
  readonly shape?: Readonly<Record<string, z.core.$ZodType>>;
  readonly innerType?: z.core.$ZodType;
  readonly element?: z.core.$ZodType;
  readonly options?: readonly z.core.$ZodType[];
  readonly entries?: Readonly<Record<string, string>>;
  readonly values?: readonly unknown[];
};

/** An input that a schema accepts, as far as names and types tell; fields named in `known` take the value given there. */
export function sampleInput(schema: z.core.$ZodType, known: KnownFields, name = ''): unknown {
  if (name !== '' && name in known) return known[name];
  // zod keeps its definition behind this documented property; the type above names the parts read here.
  const definition = schema._zod.def as unknown as Definition;
  switch (definition.type) {
    case 'object':
      return Object.fromEntries(
        Object.entries(definition.shape ?? {}).map(([key, inner]) => [key, sampleInput(inner, known, key)]),
      );
    case 'nullable':
      return null;
    case 'optional':
      return undefined;
    case 'array':
      return definition.element ? [sampleInput(definition.element, known)] : [];
    case 'union':
      return definition.options?.[0] ? sampleInput(definition.options[0], known, name) : undefined;
    case 'enum':
      return Object.values(definition.entries ?? {})[0];
    case 'literal':
      return definition.values?.[0];
    case 'boolean':
      return false;
    case 'number':
      return 1;
    case 'record':
      return {};
    case 'string':
      return 'typed';
    default:
      return undefined;
  }
}
