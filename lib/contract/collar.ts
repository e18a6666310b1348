import { z } from 'zod';

/** Collar colours are identity, said in words as well; they are never reused as a status. */
const collarKeys = [
  'blue',
  'amber',
  'red',
  'green',
  'white',
  'purple',
  'black',
  'pink',
  'brown',
  'orange',
  'yellow',
  'grey',
  'turquoise',
  'none',
] as const;

export const collarSchema = z.enum(collarKeys);
export type Collar = z.infer<typeof collarSchema>;
