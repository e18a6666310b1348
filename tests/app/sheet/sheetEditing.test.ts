import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { criterionDraft, criterionOf, freshCriterion } from '#app/sheet/criterionDraft';
import { freshKey } from '../../../app/sheet/CriterionForm';
import { criterionFaults, sheetFaults } from '#app/sheet/sheetFaults';
import { criterionSchema } from '#lib/sheet/criterion';
import { fullSheet } from '#lib/sheet/shippedSheets';

describe('a criterion while it is typed', () => {
  it('says what is missing beside each field, and no more', () => {
    const faults = criterionFaults(criterionOf({ ...freshCriterion, key: 'own' }));
    expect([...faults.keys()].toSorted()).toEqual([
      'anchors.high',
      'anchors.low',
      'anchors.middle',
      'labels.high',
      'labels.low',
      'labels.middle',
      'name',
      'why',
    ]);
    expect(new Set(faults.values())).toEqual(new Set(['This needs words.']));
  });

  it('gives back every criterion of the full sheet as it was', () => {
    for (const criterion of fullSheet.criteria) expect(criterionOf(criterionDraft(criterion))).toEqual(criterion);
  });

  it('gets a key that the schema takes and that nobody has, whatever its name', () => {
    const keySchema = criterionSchema.def.options[0].shape.key;
    fc.assert(
      fc.property(
        fc.string({ maxLength: 80 }),
        fc.array(fc.constantFrom('own', 'own-2', 'a', 'elbow-set')),
        (name, taken) => {
          const key = freshKey(name, taken);
          expect(keySchema.safeParse(key).success).toBe(true);
          expect(taken).not.toContain(key);
        },
      ),
    );
  });
});

describe('a sheet before it is sent', () => {
  it('has no fault as it came', () => {
    expect(sheetFaults(fullSheet).size).toBe(0);
  });

  it('says in words what the server would refuse', () => {
    expect(sheetFaults({ ...fullSheet, criteria: [] }).get('criteria')).toBe('Choose at least one.');
    expect(sheetFaults({ ...fullSheet, name: ' ' }).get('name')).toBe('This needs words.');
    expect(sheetFaults({ ...fullSheet, name: 'x'.repeat(81) }).get('name')).toBe('No more than 80 characters.');
    expect(sheetFaults({ ...fullSheet, scale: { low: 1, high: 2 } }).get('scale')).toBe('A scale has 3 to 11 steps.');
    const [first] = fullSheet.criteria;
    expect(sheetFaults({ ...fullSheet, criteria: [first, first] }).get('criteria')).toBe('Two criteria share a key.');
  });
});
