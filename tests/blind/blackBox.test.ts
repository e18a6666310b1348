import { expect, it } from 'vitest';
import { compareWorlds, playWorld, type World } from '#tests/support/blackBox';
import { worlds } from '#tests/support/blindDay';
import { stories } from '#tests/support/blindStories';
import { fullSize } from '#tests/support/faultSize';
import type { TestServer } from '#tests/support/startTestServer';

/*
 * Every viewer calls every procedure at every stage of a day, in four worlds that differ in what some seats say. Whoever cannot
 * read a card that differs must be told the same, byte for byte. All of it takes five minutes of a core and is played in
 * check:long; here the shortest day in the two worlds that part half the pairs of seats, and one leak of each kind.
 */
const playedWorlds = fullSize ? worlds : worlds.slice(0, 2);
const playedStories = Object.entries(stories).filter(([name]) => fullSize || name === 'photographs by code');

it.each(playedStories)(
  'BL1, BL2, BL4, BL8, BL9: in %s no viewer at any stage is told by any procedure or frame what another seat has said and not yet revealed',
  async (_, story) => {
    const blindStages = story.stages.filter((stage) => stage.blind).length;
    const played: World[] = [];
    for (const world of playedWorlds) {
      const now = await playWorld(story, { world, ...(world === 0 ? {} : { stages: blindStages }) });
      expect(now.faults).toEqual([]);
      expect(unheard(now)).toEqual([]);
      for (const earlier of played) expect(compareWorlds(earlier, now)).toEqual({ leaks: [], blunt: [] });
      played.push(now);
    }
    expect(played[0]?.stages.map((stage) => stage.name)).toEqual(story.stages.map((stage) => stage.name));
  },
);

/** Who was not told a single one of its own words at a blind stage: such a search finds nothing anywhere. */
function unheard({ stages, own }: World): string[] {
  return stages.flatMap((stage) =>
    stage.viewers
      .filter((viewer) => stage.blind && viewer.holder !== null && !own.get(`${stage.name}: ${viewer.name}`))
      .map((viewer) => `${stage.name}: ${viewer.name}`),
  );
}

const leaks: Readonly<Record<string, { readonly sql: string; readonly by: 'words' | 'worlds' }>> = {
  'a number beside the day’s name': {
    by: 'worlds',
    sql: "UPDATE evaluation SET call_number = NEW.value WHERE NEW.value IS NOT NULL AND NEW.seat_id = (SELECT id FROM seat WHERE label = 'co-owner' LIMIT 1)",
  },
  'a sum in a version': { by: 'worlds', sql: 'UPDATE audience_version SET version = version + coalesce(NEW.value, 0)' },
  'words in the note of the table': {
    by: 'words',
    sql: "UPDATE evaluation SET table_note = NEW.body WHERE json_extract(NEW.body, '$.text') IS NOT NULL",
  },
  'the id of an entry in a puppy’s mark': { by: 'words', sql: 'UPDATE puppy SET second_mark = NEW.id' },
};

const playedLeaks = Object.entries(leaks).filter(
  ([name]) => fullSize || ['a sum in a version', 'words in the note of the table'].includes(name),
);

it.each(playedLeaks)('BL1: a planted leak is seen: %s', async (_, { sql, by }) => {
  const story = stories['a first round'];
  if (!story) throw new Error('no story');
  const plant = ({ runtime: { db } }: TestServer) =>
    void db.$client.exec(`CREATE TRIGGER leak AFTER INSERT ON entry BEGIN ${sql}; END`);
  const play = (world: 0 | 3) => playWorld(story, { world, stages: 2, plant });
  const first = await play(0);
  if (by === 'words') expect(first.faults.join('\n')).toMatch(/open: reader was told \S+ of /);
  else expect(compareWorlds(first, await play(3)).leaks.join('\n')).toMatch(/open: reader is told what others said/);
});
