import { z } from 'zod';
import { collarSchema } from './collar';
import { daySchema, idSchema, line } from './fields';

export const sexSchema = z.enum(['dog', 'bitch']);
export type Sex = z.infer<typeof sexSchema>;

export const litterInputSchema = z.strictObject({
  name: line(80, 1),
  breed: line(80),
  dam: line(80),
  sire: line(80),
  whelpedOn: daySchema,
});
export type LitterInput = z.infer<typeof litterInputSchema>;

export const puppyInputSchema = z.strictObject({
  name: line(40, 1),
  sex: sexSchema,
  collar: collarSchema,
  secondMark: line(80),
  chipDigits: z.string().regex(/^\d{0,4}$/),
});
export type PuppyInput = z.infer<typeof puppyInputSchema>;

export const weightSchema = z.strictObject({ weighedOn: daySchema, grams: z.int().min(20).max(60_000) });

const puppyViewSchema = puppyInputSchema.extend({ id: idSchema, weights: z.array(weightSchema) });
export type PuppyView = z.infer<typeof puppyViewSchema>;

export const litterViewSchema = litterInputSchema.extend({ id: idSchema, puppies: z.array(puppyViewSchema) });
export type LitterView = z.infer<typeof litterViewSchema>;

export const litterLineSchema = z.strictObject({
  id: idSchema,
  name: z.string(),
  breed: z.string(),
  whelpedOn: daySchema,
  puppies: z.int(),
});
