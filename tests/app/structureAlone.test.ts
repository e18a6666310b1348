import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { structureAlone } from '#lib/sheet/cautions';

const read = (file: string) => readFileSync(new URL(`../../${file}`, import.meta.url), 'utf8');

it.each([
  'app/setup/PurposePart.tsx',
  'app/board/MeritSection.tsx',
  'app/decide/PicksSection.tsx',
  'app/decide/BehaviourSection.tsx',
  'app/record/ResultOfRecord.tsx',
  'app/home/NoteOf.tsx',
])('SA5: %s says that orders speak of structure alone, in the one sentence', (file) => {
  expect(read(file)).toContain('{structureAlone}');
});

it('SA5: the README says it in the same words', () => {
  expect(read('README.md').replaceAll(/\s+/g, ' ')).toContain(structureAlone);
});
