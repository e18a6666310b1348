import { createElement } from 'react';
import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { RoomCautions } from '../../app/_parts/CautionNote';
import { cautions, roomCautions, visitorQuestion } from '#lib/sheet/cautions';
import { textOf } from '#tests/support/drawn';

const read = (file: string) => readFileSync(new URL(`../../app/${file}`, import.meta.url), 'utf8');

it.each([
  ['join/JoinForm.tsx', ['<RoomCautions />', '{visitorQuestion}']],
  ['score/BeforeStart.tsx', ['<RoomCautions />', '{visitorQuestion}']],
  ['score/TableControl.tsx', ['<RoomCautions />', '{cautions.fear.text}']],
  ['decide/DecideScreen.tsx', ['<CautionNote caution="local-law" />']],
  [
    'home/NoteOf.tsx',
    [
      '<CautionNote caution="local-law" />',
      '<CautionNote caution="not-veterinary" />',
      '<CautionNote caution="hereditary" />',
    ],
  ],
] as const)('SA3: %s says what matters there', (file, parts) => {
  for (const part of parts) expect(read(file)).toContain(part);
});

it('SA3: a home reads no caution that is not a home’s', () => {
  expect(read('home/NoteOf.tsx')).not.toMatch(/caution="(?!not-veterinary|hereditary|early-days|local-law)/);
});

it('SA3: everyone in the room reads of falls, hygiene, warmth, rest and the signs at which to stop, in few words', () => {
  const text = textOf(createElement(RoomCautions));
  for (const word of ['fall', 'Soap', 'floor', 'warm', 'rest', 'shivers', 'yawns', 'limp', 'get away'])
    expect(text).toContain(word);
  expect(roomCautions.map((key) => cautions[key].text.length).every((length) => length <= 330)).toBe(true);
  expect(visitorQuestion).toMatch(/well today.*another kennel.*this week/);
  expect(cautions['not-veterinary'].text).toContain('the inside of the eyes');
});
