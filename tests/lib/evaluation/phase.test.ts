import { expect, it } from 'vitest';
import { evaluationPhaseSchema, roundStateSchema, seatStateSchema } from '#lib/evaluation/phase';

it('BL2: a phase, a round or a seat in a state that the code does not know is refused', () => {
  for (const schema of [evaluationPhaseSchema, roundStateSchema, seatStateSchema]) {
    for (const unknown of ['', 'Open', 'reopened', 'practice', null, undefined, 1])
      expect(schema.safeParse(unknown).success).toBe(false);
  }
});

it('BL7: an evaluation goes through four phases, a round through three states, and a seat through three', () => {
  expect(evaluationPhaseSchema.options).toEqual(['preparing', 'scoring', 'deciding', 'sealed']);
  expect(roundStateSchema.options).toEqual(['open', 'closed', 'revealed']);
  expect(seatStateSchema.options).toEqual(['invited', 'joined', 'locked']);
});
