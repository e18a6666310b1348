import { existsSync } from 'node:fs';
import { holdData } from '#db/holdData';
import { open } from '#db/open';
import { standOfFile } from '#db/migrateSafely';
import { networkAddresses, originsOf, ownerLinkLines, readServing } from '../addresses';
import { dataFileIn } from '../backup/openData';
import { makeOwnerLink } from '../commands/owner';
import { systemRandom } from '../random';
import { readSettings, type Settings } from '../readSettings';
import { startFault, StartRefused } from '../startFault';
import { type CliOutput, processOutput } from './cliOutput';

/**
 * `npm run -s owner-link`: prints a fresh owner link, while the server runs or not; the one before dies. Only the hash of
 * it goes into the data file, by SQLite's own locking, and the server looks links up there each time. 0 when done, 1 when not.
 */
export async function ownerLinkCommand(args: readonly string[], output: CliOutput = processOutput): Promise<number> {
  try {
    const settings = readSettings({ env: process.env, args, folder: process.cwd() });
    for (const line of freshLink(settings)) output.answer(line);
    return 0;
  } catch (error) {
    output.complain(startFault(error));
    return 1;
  }
}

function freshLink(settings: Settings): string[] {
  const file = dataFileIn(settings.dataFolder);
  if (!existsSync(file) || standOfFile(file) !== 'current') {
    throw new StartRefused(`There is no data file of this version at ${file}. Start the server once: npm start`);
  }
  // Held for a moment where no server runs, so that none starts and no backup is restored meanwhile.
  const hold = holdData(file, 0);
  if (!hold && existsSync(`${file}.restoring`))
    throw new StartRefused('A backup is being restored. Try again when that is done.');
  try {
    const db = open(file);
    try {
      const token = makeOwnerLink({ db, random: systemRandom, clock: { now: () => Date.now() } });
      const serving = hold ? [] : readServing(settings.dataFolder);
      const origins =
        serving.length > 0 ? serving : originsOf({ settings, port: settings.port, network: networkAddresses() });
      return ownerLinkLines(origins, token);
    } finally {
      db.$client.close();
    }
  } finally {
    hold?.release();
  }
}
