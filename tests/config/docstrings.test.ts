import { expect, it } from 'vitest';
import { exportsOf, sourceOf, statisticsFiles } from '../support/workedExamples';

it('ST3: every export of lib/stats has a docstring right above it', () => {
  const bare = statisticsFiles.flatMap((file) =>
    exportsOf(sourceOf(file)).flatMap(({ name, told }) => (told ? [] : [`${name} (${file})`])),
  );
  expect(statisticsFiles.length).toBeGreaterThan(50);
  expect(bare).toEqual([]);
});

it('an export without a docstring is seen', () => {
  expect(exportsOf('/** Told. */\nexport type A = number;\n\nexport function b(): void {}\n')).toEqual([
    { name: 'A', isFunction: false, told: true },
    { name: 'b', isFunction: true, told: false },
  ]);
});
