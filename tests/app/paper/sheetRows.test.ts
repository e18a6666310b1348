import fc from 'fast-check';
import { expect, it } from 'vitest';
import { entryField } from '#lib/evaluation/entries';
import { askedFields } from '#lib/evaluation/paper';
import { fullSheet, shortSheet } from '#lib/sheet/shippedSheets';
import { nothingTyped, saidWords, sheetRows, typeKey, type Typing } from '../../../app/paper/sheetRows';
import { stepsFor } from '../../../app/score/steps';
import { fern, moss } from '#tests/support/evaluationFacts';

const rowsFor = (sheet = shortSheet, kind: 'hands' | 'live' = 'hands', puppy = moss) =>
  sheetRows(stepsFor(sheet, kind, puppy.sex), sheet.scale);
const typeAll = (rows: ReturnType<typeof rowsFor>, keys: readonly string[]) =>
  keys.reduce<Typing>((typing, key) => typeKey(rows, typing, key) ?? typing, nothingTyped);

it('LV3: a sheet asks what the screen asks and the server counts, every box under a sign of its own', () => {
  for (const sheet of [shortSheet, fullSheet]) {
    for (const kind of ['hands', 'live'] as const) {
      for (const puppy of [fern, moss]) {
        const rows = rowsFor(sheet, kind, puppy);
        expect(
          rows
            .filter((row) => row.asked)
            .map((row) => row.field)
            .toSorted(),
        ).toEqual(askedFields({ sheet, cells: null, kind, puppy }).toSorted());
        for (const row of rows) {
          expect(new Set(row.boxes.map((box) => box.key)).size).toBe(row.boxes.length);
          for (const body of [...row.boxes.map((box) => box.body), ...(row.notSeen ? [row.notSeen] : [])])
            expect(entryField(body)).toBe(row.field);
        }
      }
    }
  }
});

it('LV3: a sign answers the row that is next and no other; what says nothing there does nothing', () => {
  const rows = rowsFor();
  const typing = typeAll(rows, ['4', 'x', '-', 'Enter', '2']);
  const [first, second, third, fourth] = rows.map((row) => row.field);
  expect(typing.at).toBe(4);
  expect(Object.keys(typing.said)).toEqual([first, second, fourth]);
  expect(typing.said[second ?? '']).toMatchObject({ value: null, cannotJudge: true });
  expect(typing.said[third ?? '']).toBeUndefined();
  expect(rows.slice(1, 2).map((row) => saidWords(row, typing))).toEqual(['not seen']);
});

it('LV3: going back and typing again puts one answer in the place of the other; Enter takes it out', () => {
  const rows = rowsFor();
  const field = rows[0]?.field ?? '';
  expect(typeAll(rows, ['4', 'Backspace', '6']).said[field]).toEqual(
    rows[0]?.boxes.find((box) => box.key === '6')?.body,
  );
  expect(typeAll(rows, ['4', 'Backspace', 'Enter']).said).toEqual({});
  expect(typeKey(rows, nothingTyped, 'Backspace')).toBeNull();
});

it('LV3: whatever is typed, each row holds what its own last sign says', () => {
  const keys = fc.array(fc.constantFrom('1', '2', '3', '4', '7', '9', '-', ' ', 'Enter', 'Backspace', 'q'), {
    maxLength: 120,
  });
  fc.assert(
    fc.property(keys, (typed) => {
      const rows = rowsFor();
      const { at, said } = typeAll(rows, typed);
      expect(at).toBeLessThanOrEqual(rows.length);
      for (const row of rows) {
        const body = said[row.field];
        if (body) expect([...row.boxes.map((box) => box.body), row.notSeen]).toContainEqual(body);
      }
    }),
  );
});

it('LV3: seven signs for seven degrees; a scale beyond one digit, or below nought, goes by letters', () => {
  const twoSided = rowsFor().find((row) => row.boxes.some((box) => box.body.kind === 'score' && box.body.value === -3));
  expect(twoSided?.boxes.map((box) => [box.key, 'value' in box.body ? box.body.value : null])).toEqual([
    ['1', -3],
    ['2', -2],
    ['3', -1],
    ['4', 0],
    ['5', 1],
    ['6', 2],
    ['7', 3],
  ]);
  for (const scale of [
    { low: 1, high: 11 },
    { low: -3, high: 3 },
  ]) {
    const overall = sheetRows(stepsFor({ ...shortSheet, scale }, 'hands', 'dog'), scale).at(-1);
    expect(overall?.boxes[0]?.key).toBe('a');
    expect(overall?.boxes.map((box) => ('value' in box.body ? box.body.value : null))).toEqual(
      Array.from({ length: scale.high - scale.low + 1 }, (_, at) => scale.low + at),
    );
  }
});
