import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Sqlite from 'better-sqlite3';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { verifyData } from '#server/reveal/verifyData';
import { lockCard } from '#tests/support/lockCard';
import { addPaperSeat, filledSheet, paperSeatOf } from '#tests/support/paperSeat';
import { scoreCard, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer } from '#tests/support/startTestServer';

let folder = '';
let sound = '';

/** A day with a seat on paper, reopened once, played to its reveal. */
beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'evenstack-paper-tampers-'));
  sound = join(folder, 'sound.db');
  await using server = await startTestServer();
  const day = await seedQuillmarsh(await server.owner(), { puppies: 2, panel: ['mentor'] });
  const { id, owner, seats } = day;
  const seatId = await addPaperSeat(day);
  await owner.api.evaluation.openRound.mutate({ id });
  for (const client of [owner, seats['mentor'] ?? owner]) await scoreCard(client, id, steadyCell);
  await lockCard(owner, id);
  const { sheets } = await paperSeatOf(owner, id, seatId);
  for (const { showingId } of sheets)
    await owner.api.paper.type.mutate({
      id,
      seatId,
      showingId,
      bodies: await filledSheet(owner, id, { score: 4, word: 'a word' }),
    });
  await owner.api.evaluation.closeRound.mutate({ id });
  await owner.api.evaluation.reopenRound.mutate({ id });
  await owner.api.paper.lock.mutate({ id, seatId, signedAt: '' });
  await lockCard(seats['mentor'], id, 'd'.repeat(32));
  await owner.api.evaluation.revealRound.mutate({ id });
  server.runtime.db.$client.exec(`VACUUM INTO '${sound}'`);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

function faultsAfter(sql: string): string[] {
  const file = join(folder, 'tampered.db');
  copyFileSync(sound, file);
  const client = new Sqlite(file);
  for (const name of client.prepare<[], string>("SELECT name FROM sqlite_schema WHERE type = 'trigger'").pluck().all())
    client.exec(`DROP TRIGGER "${name}"`);
  client.exec(sql);
  client.close();
  return verifyData(file).faults.map((fault) => fault.what);
}

const otherDevice = "(SELECT d.id FROM device d JOIN seat s ON s.id = d.seat_id WHERE s.label = 'mentor')";
const paperSeat = "(SELECT id FROM seat WHERE label = 'neighbour')";

it('SC3: a day with a card from paper is sound as the server left it', () => {
  expect(faultsAfter('SELECT 1')).toEqual([]);
});

it.each([
  ['who typed a card changed', 'paper', `UPDATE paper_card SET device_id = ${otherDevice} WHERE seq = 1`],
  ['when a card was typed changed', 'paper', 'UPDATE paper_card SET at = at - 1000 WHERE seq = 1'],
  ['how many answers it had changed', 'paper', 'UPDATE paper_card SET answers = answers + 1 WHERE seq = 1'],
  ['that a card was typed taken away', 'paper', 'DELETE FROM paper_card WHERE seq = 2'],
  [
    'a typed card added',
    'paper',
    "INSERT INTO paper_card SELECT NULL, 'x', round_id, seat_id, showing_id, device_id, answers, at FROM paper_card WHERE seq = 1",
  ],
  [
    'a typed card’s entries given to another device',
    'entry',
    `UPDATE entry SET device_id = ${otherDevice} WHERE seat_id = ${paperSeat}; UPDATE answer SET device_id = ${otherDevice} WHERE seat_id = ${paperSeat}`,
  ],
  ['the mark of the seat taken away', 'seat', 'UPDATE seat SET paper = 0'],
  ['a seat with a device marked', 'seat', "UPDATE seat SET paper = 1 WHERE label = 'mentor'"],
  [
    'the snapshot made to say that nothing was typed',
    'snapshot',
    `UPDATE snapshot SET body = replace(body, '"typed":true', '"typed":false')`,
  ],
  [
    'the owner’s standing commitment marked void',
    'commitment',
    "UPDATE commitment SET voided_at = 1 WHERE voided_at IS NULL AND seat_id = (SELECT id FROM seat WHERE label = 'breeder')",
  ],
  [
    'a score typed from paper changed',
    'commitment',
    `UPDATE entry SET value = 7, body = replace(body, '"value":4', '"value":7') WHERE seat_id = ${paperSeat} AND value = 4; UPDATE answer SET value = 7, body = replace(body, '"value":4', '"value":7') WHERE seat_id = ${paperSeat} AND value = 4`,
  ],
])('SC3: %s: found', (_, what, sql) => {
  expect(faultsAfter(sql)).toContain(what);
});
