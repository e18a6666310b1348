import type { PuppyFace, Showing } from '#lib/contract/evaluationView';
import { stepField, type Step } from './steps';

export type AcrossFace = { readonly showing: Showing; readonly puppy: PuppyFace; readonly steps: readonly Step[] };
/** One question about one puppy: its place among that puppy's questions. */
export type AcrossPlace = { readonly face: AcrossFace; readonly step: Step; readonly index: number };

/** Every question of a round, one question across all puppies before the next; a puppy that is not asked it is left out there. */
export function acrossLitter(faces: readonly AcrossFace[]): readonly AcrossPlace[] {
  const longest = faces.toSorted((one, other) => other.steps.length - one.steps.length).flatMap(({ steps }) => steps.map(stepField));
  return [...new Set(longest)].flatMap((field) =>
    faces.flatMap((face) => {
      const index = face.steps.findIndex((step) => stepField(step) === field);
      const step = face.steps[index];
      return step ? [{ face, step, index }] : [];
    }),
  );
}
