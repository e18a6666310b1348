// Writes scores by the real command, one transaction each, and says on its output which are acknowledged: node faultWriter FILE DAY FULL|NORMAL MANY
import { readFileSync, writeSync } from 'node:fs';
import { open } from '#db/open';
import { submitEntries } from '#server/commands/cards';
import { seededIds } from './seededIds';
import { askerOf, dayRuntime, type Day } from './makeDay';

const [file = '', dayFile = '', synchronous = 'FULL', many = '0'] = process.argv.slice(2);
// Written by the test that starts this.
const day = JSON.parse(readFileSync(dayFile, 'utf8')) as Day;
const db = open(file);
if (synchronous === 'NORMAL') db.$client.pragma('synchronous = NORMAL');
// Often, so that many cuts fall into a checkpoint.
db.$client.pragma('wal_autocheckpoint = 40');
const runtime = dayRuntime(db);
const random = seededIds('writer');
const criteria = day.facts.sheet.criteria.filter((one) => !one.twoSided);
const asker = askerOf(runtime, day, day.devices[0] ?? { id: '', seatId: '' });
for (let place = 0; place < Number(many); place += 1) {
  const entry = {
    id: random.id(),
    subject: day.facts.round?.showings[place % 3]?.id ?? '',
    counter: place + 1,
    madeAt: 1,
    body: {
      kind: 'score',
      criterion: criteria[place % criteria.length]?.key ?? '',
      cannotJudge: false,
      value: 1 + (place % 7),
    },
  } as const;
  const [outcome] = submitEntries(asker, { evaluationId: day.facts.id, entries: [entry] });
  if (outcome?.status !== 'applied') throw new Error(`an entry was ${outcome?.status}: ${outcome?.code}`);
  writeSync(1, `${entry.id}\n`);
}
// No closing: the power goes.
process.kill(process.pid, 'SIGKILL');
