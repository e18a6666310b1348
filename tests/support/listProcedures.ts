import { z } from 'zod';
import { appRouter } from '#server/api/router';

export type ListedProcedure = {
  readonly path: string;
  readonly kind: 'query' | 'mutation';
  readonly input: z.core.$ZodType | null;
};

type Definition = { readonly inputs: readonly unknown[]; readonly type: 'query' | 'mutation' };

/** Every procedure the router has, with its input schema; null for one that takes nothing. */
export function listProcedures(): ListedProcedure[] {
  return Object.entries(appRouter._def.procedures)
    .map(([path, procedure]) => {
      // tRPC keeps these on every procedure; its types show them only for procedures made by hand.
      const { inputs, type } = (procedure as unknown as { readonly _def: Definition })._def;
      const [input] = inputs;
      const takes = input instanceof z.core.$ZodType && input._zod.def.type !== 'void';
      return { path, kind: type, input: takes ? input : null };
    })
    .toSorted((one, other) => one.path.localeCompare(other.path));
}
