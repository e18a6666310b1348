import { describe, expect, it } from 'vitest';
import { acrossLitter } from '../../app/score/useNextMove';
import { stepField, stepsFor } from '#app/score/steps';
import { fullSheet } from '#lib/sheet/shippedSheets';

const face = (name: string, sex: 'dog' | 'bitch', place: number) => ({
  showing: { id: name, puppyId: name, place, repeat: false },
  puppy: { id: name, name, sex, collar: 'blue', secondMark: '', withdrawn: false } as const,
  steps: stepsFor(fullSheet, 'hands', sex),
});

describe('one question across the litter', () => {
  const faces = [face('Fern', 'bitch', 0), face('Moss', 'dog', 1), face('Sedge', 'dog', 2)];
  const places = acrossLitter(faces);

  it('SC2: every question of every puppy comes once, each question about all puppies before the next', () => {
    expect(new Set(places.map(({ face: { showing }, step }) => `${showing.id} ${stepField(step)}`)).size).toBe(
      places.length,
    );
    expect(places).toHaveLength(faces.reduce((sum, { steps }) => sum + steps.length, 0));
    const fields = places.map(({ step }) => stepField(step));
    expect(fields.filter((field, at) => field !== fields[at - 1])).toEqual([...new Set(fields)]);
  });

  it('SA1: a puppy that is not asked a question is left out there, and its own place stays right', () => {
    const testicles = places.filter(({ step }) => stepField(step) === 'check:testicles');
    expect(testicles.map(({ face: { puppy } }) => puppy.name)).toEqual(['Moss', 'Sedge']);
    for (const {
      face: { steps },
      step,
      index,
    } of places)
      expect(steps[index]).toBe(step);
  });
});
