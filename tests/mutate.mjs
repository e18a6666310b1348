// `node tests/mutate.mjs rules|numbers [FILE …]`: plants one small fault after another (a mutant) in files whose tests are pure, and
// holds the share that a test finds to a floor (tests/config/mutation.mjs). With files named, those alone, and no floor.
import { relative, resolve } from 'node:path';
import { Stryker } from '@stryker-mutator/core';
import { fromRoot } from '../server/cli/root.mjs';
import { mutationParts, mutationSettings } from './config/mutation.mjs';
import { belowFloor, isMissed, scoreOf } from './support/mutationScore.mjs';

/** One that no test found, or that could not be run: its place, and what stood there instead. */
const told = ({ fileName, location, mutatorName, replacement, status }) =>
  `${fileName}:${location.start.line}:${location.start.column} ${status} ${mutatorName}: ${(replacement ?? '').replace(/\s+/g, ' ').slice(0, 120)}`;

function report(name, mutants) {
  const { counted, killed, apart, percent } = scoreOf(mutants);
  console.log(
    `${name}: ${percent.toFixed(1)} % (${killed} of ${counted} found${apart > 0 ? `, ${apart} not counted` : ''})`,
  );
}

const [part, ...chosen] = process.argv.slice(2);
const setting = mutationParts[part];
if (setting === undefined) {
  console.error(`No part ${part}. Parts: ${Object.keys(mutationParts).join(', ')}.`);
  process.exitCode = 2;
} else {
  process.chdir(fromRoot());
  const groups = chosen.length > 0 ? { chosen } : setting.groups;
  const began = Date.now();
  const run = await new Stryker(mutationSettings(Object.values(groups).flat())).runMutationTest();
  const mutants = run.map((mutant) => ({ ...mutant, fileName: relative(fromRoot(), resolve(mutant.fileName)) }));
  for (const mutant of mutants.filter((one) => isMissed(one) || one.status.endsWith('Error')))
    console.log(told(mutant));
  for (const [name, files] of Object.entries(groups)) {
    for (const file of files)
      report(
        `  ${file}`,
        mutants.filter(({ fileName }) => fileName === file),
      );
    report(
      name,
      mutants.filter(({ fileName }) => files.includes(fileName)),
    );
  }
  console.log(
    `${mutants.length} mutants, ${mutants.filter(({ status }) => status === 'Timeout').length} of them ended for looping, in ${Math.round((Date.now() - began) / 60_000)} min`,
  );
  const low = chosen.length > 0 ? [] : belowFloor(groups, mutants, setting.floor);
  if (low.length > 0) {
    console.log(`Below the floor of ${setting.floor} %: ${low.join(', ')}`);
    process.exitCode = 1;
  }
}
