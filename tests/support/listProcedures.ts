import { z } from 'zod';
import { appRouter } from '#server/api/router';

export type ListedProcedure = { readonly path: string; readonly kind: 'query' | 'mutation'; readonly input: z.core.$ZodType | null };

/** Every procedure the router has, with its input schema. */
export function listProcedures(): ListedProcedure[] {
  return Object.entries(appRouter._def.procedures)
    .map(([path, procedure]) => {
      const { inputs, type } = procedure._def as unknown as { readonly inputs: readonly unknown[]; readonly type: 'query' | 'mutation' };
      const input = inputs[0];
      return { path, kind: type, input: input instanceof z.core.$ZodType ? input : null };
    })
    .toSorted((one, other) => one.path.localeCompare(other.path));
}
