import { existsSync } from 'node:fs';
import { expect, it } from 'vitest';
import { callBatch } from '#tests/support/callBatch';
import { callProcedure } from '#tests/support/callProcedure';
import { joinDirectly } from '#tests/support/joinDirectly';
import { listProcedures, type ListedProcedure } from '#tests/support/listProcedures';
import { lockCard, promiseOf } from '#tests/support/lockCard';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { soundInputs, type Asker } from '#tests/support/soundInputs';
import { bringTo, stages, type Stage } from '#tests/support/stages';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';
import { testClient } from '#tests/support/testClient';
import { roles, whoMay, type Role } from '#tests/support/whoMay';
import { withoutTrace } from '#tests/support/withoutTrace';

const none = { kind: 'none', leads: false, picks: false, interest: '' } as const;

async function askersOf(server: TestServer, quillmarsh: Quillmarsh, stage: Stage): Promise<Record<Role, Asker>> {
  const { id, owner, seats } = quillmarsh;
  const seat = (label: string): Asker => {
    const client = seats[label];
    if (!client) throw new Error(`no ${label}`);
    return { client, label };
  };
  const added = (label: string, rights: { readonly organises?: boolean; readonly reads?: boolean }): Asker => ({
    client: joinDirectly(server, id, { ...none, label, ...rights }),
    label,
  });
  const other = await seedQuillmarsh(owner, { puppies: 1, panel: ['co-owner'] });
  if (stage === 'open') await lockCard(seats['photographer'], id);
  return {
    stranger: { client: server.stranger(), label: 'mentor' },
    visitor: { client: testClient(server.url, `evenstack_demo=${owner.cookie().split('=')[1]}`), label: 'mentor' },
    seat: seat('mentor'),
    picker: seat('co-owner'),
    locked: seat('photographer'),
    guest: { client: other.seats['co-owner'] ?? server.stranger(), label: 'co-owner' },
    organiser: added('secretary', { organises: true }),
    reader: added('friend', { reads: true }),
    bystander: added('at the table', {}),
  };
}

/** The owner's sound inputs, with what is the asker's own in the place of what is hers. */
async function inputsFor(
  inputs: Readonly<Record<string, unknown>>,
  { id, owner }: Quillmarsh,
  { client, label }: Asker,
): Promise<Readonly<Record<string, unknown>>> {
  const seatId = (await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === label)?.id;
  const typed = (path: string) =>
    JSON.parse(JSON.stringify(inputs[path]).replaceAll(',breeder,', `,${label},`)) as unknown;
  const promised = await promiseOf(client, id).catch(() => ({ nonce: 'a'.repeat(32), commitment: 'b'.repeat(64) }));
  return {
    ...inputs,
    'board.askToSpeak': { id, seatId, up: true },
    'card.importScores': typed('card.importScores'),
    'card.previewImport': typed('card.previewImport'),
    'card.lock': { id, ...promised },
  };
}

/** Rows written through the server's own connection so far, those taken back again with them. */
const changesOf = ({ runtime: { db } }: TestServer): unknown =>
  db.$client.prepare('SELECT total_changes()').pluck().get();

it('BL2: every procedure is declared, with the roles and stages in which it may be called', () => {
  expect(Object.keys(whoMay).toSorted()).toEqual(
    listProcedures()
      .map((one) => one.path)
      .toSorted(),
  );
});

it.each(stages)(
  'BL2, BL6: at stage %s every role is granted what is declared for it and refused all else, one by one and in batches, with sound input',
  async (stage) => {
    await using server = await startTestServer();
    const quillmarsh = await bringTo(server, stage);
    const { id, owner } = quillmarsh;
    const askers = await askersOf(server, quillmarsh, stage);
    const owners = await soundInputs(quillmarsh);
    // Worked out once and kept; within the calls below whatever is worked out is taken back with them.
    await owner.api.board.get.query({ id }).catch(() => undefined);
    const faults: string[] = [];
    for (const role of roles) {
      const asker = askers[role];
      const inputs = await inputsFor(owners, quillmarsh, asker);
      const inputOf = (one: ListedProcedure) => inputs[one.path] ?? (one.input ? { id } : undefined);
      const refused = new Map<string, string | null>();
      for (const procedure of listProcedures()) {
        const granted = whoMay[procedure.path]?.[role]?.includes(stage) === true;
        const written = changesOf(server);
        const { answered, changed } = await withoutTrace(server, async () => {
          const said = await callProcedure(asker.client, procedure, inputOf(procedure));
          return { answered: said, changed: !granted && changesOf(server) !== written };
        });
        const sound = granted
          ? answered.status === 200
          : answered.status >= 400 &&
            answered.status < 500 &&
            answered.code !== null &&
            answered.code !== 'unknown' &&
            answered.code !== 'bad-input';
        // A code that is wrong counts against guessing, and a link tried where there is a session is written down.
        const keeps = !changed || procedure.path.startsWith('session.');
        if (!sound || !keeps)
          faults.push(
            `${role} ${procedure.path}: ${answered.status} ${answered.code}, declared ${granted ? 'granted' : 'refused'}, changed ${changed}`,
          );
        if (!granted) refused.set(procedure.path, answered.code);
      }
      for (const kind of ['query', 'mutation'] as const) {
        const calls = listProcedures()
          .filter((one) => one.kind === kind && refused.has(one.path))
          .map((procedure) => ({ procedure, input: inputOf(procedure) }));
        for (let from = 0; from < calls.length; from += 15) {
          const batch = calls.slice(from, from + 15);
          const { codes } = await withoutTrace(server, () => callBatch(asker.client, kind, batch));
          batch.forEach(({ procedure: { path } }, at) => {
            if (codes[at] !== refused.get(path))
              faults.push(`${role} ${path} in a batch: ${codes[at]} instead of ${refused.get(path)}`);
          });
        }
      }
    }
    expect(faults).toEqual([]);
    expect(server.logged).toEqual([]);
  },
);

it('BL2: every refusal above is the procedure’s own: no file of the page framework stands before the API', () => {
  for (const name of ['middleware', 'proxy', 'instrumentation']) {
    for (const folder of ['', 'app/', 'src/'])
      for (const ending of ['ts', 'js', 'mjs', 'tsx'])
        expect(existsSync(new URL(`../../../${folder}${name}.${ending}`, import.meta.url))).toBe(false);
  }
});
