import { io, type Socket } from 'socket.io-client';
import { expect, it } from 'vitest';
import type { EntryBody } from '#lib/contract/entry';
import { systemRandom } from '#server/random';
import { callProcedure } from '#tests/support/callProcedure';
import { listProcedures, type ListedProcedure } from '#tests/support/listProcedures';
import { lockCard, promiseOf } from '#tests/support/lockCard';
import { sampleInput, type KnownFields } from '#tests/support/sampleInput';
import { seedQuillmarsh, type Quillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';
import type { TestClient } from '#tests/support/testClient';

/** Each seat's words and numbers occur nowhere else: no other name, limit, count or id holds them. */
const canaries = {
  breeder: { word: 'quince-breeder', score: 3, chance: 71 },
  mentor: { word: 'quince-mentor', score: 5, chance: 73 },
  photographer: { word: 'quince-photographer', score: 6, chance: 77 },
  'co-owner': { word: 'quince-coowner', score: 2, chance: 79 },
} as const;
type Label = keyof typeof canaries;
const labels = Object.keys(canaries) as Label[];

function clientOf({ owner, seats }: Quillmarsh, label: Label): TestClient {
  const client = label === 'breeder' ? owner : seats[label];
  if (!client) throw new Error(`no seat ${label}`);
  return client;
}

async function plant(quillmarsh: Quillmarsh, label: Label): Promise<void> {
  const client = clientOf(quillmarsh, label);
  const { word, score, chance } = canaries[label];
  const view = await client.api.evaluation.get.query({ id: quillmarsh.id });
  const showing = view.round?.showings[0];
  const slot = view.slots[0];
  const criterion = view.sheet.criteria.find((one) => !one.twoSided && !one.handsOnly);
  if (!showing || !slot || !criterion) throw new Error('nothing to score');
  const bodies: [string, EntryBody][] = [
    [showing.id, { kind: 'score', criterion: criterion.key, value: score, cannotJudge: false }],
    [showing.id, { kind: 'overall', value: score, cannotJudge: false }],
    [showing.id, { kind: 'note', criterion: null, text: word }],
    [showing.id, { kind: 'fair', fair: true, why: word }],
    [slot.id, { kind: 'choice', puppy: showing.puppyId, reason: word, chance }],
  ];
  const entries = bodies.map(([subject, body]) => ({ id: systemRandom.id(), subject, counter: 1, madeAt: 1, body }));
  const outcomes = await client.api.card.submit.mutate({ id: quillmarsh.id, entries });
  expect(outcomes.map((outcome) => outcome.status)).toEqual(bodies.map(() => 'applied'));
}

/** What a viewer could put into any procedure: ids of this evaluation, and of the other seats where one is asked for. */
async function knownFields(quillmarsh: Quillmarsh): Promise<KnownFields> {
  const view = await quillmarsh.owner.api.evaluation.get.query({ id: quillmarsh.id });
  const setup = await quillmarsh.owner.api.setup.get.query({ id: quillmarsh.id });
  const mentor = view.seats.find((seat) => seat.label === 'mentor')?.id;
  const [showing] = view.round?.showings ?? [];
  return {
    id: quillmarsh.id,
    litterId: setup.litterId,
    sheetId: setup.sheetId,
    seatId: mentor,
    slotId: view.slots[0]?.id,
    puppyId: showing?.puppyId,
    firstPuppyId: view.puppies[0]?.id,
    secondPuppyId: view.puppies[1]?.id,
    showingId: showing?.id,
    lookId: systemRandom.id(),
    noteId: systemRandom.id(),
    subject: showing?.id,
    heldOn: '2026-09-12',
    whelpedOn: '2026-07-18',
    weighedOn: '2026-09-12',
    grams: 5000,
    text: 'puppy,evaluator,criterion,score\nFern,mentor,neck,5\n',
    token: 'x'.repeat(40),
    from: showing?.id,
    to: view.round?.showings[1]?.id,
    moveId: systemRandom.id(),
    chipDigits: '',
    order: [],
    callLink: '',
    counter: 1,
    madeAt: 1,
    key: 'keep',
  };
}

/** Calls that end a session, a lock or a round come last; reveal is asked for first, while it must be refused. */
function inSafeOrder(procedures: readonly ListedProcedure[]): ListedProcedure[] {
  const rank = ({ path, kind }: ListedProcedure) =>
    path === 'evaluation.revealRound'
      ? 0
      : kind === 'query'
        ? 1
        : path === 'session.leave'
          ? 5
          : path === 'evaluation.closeRound'
            ? 4
            : path === 'card.lock'
              ? 3
              : 2;
  return procedures.toSorted((one, other) => rank(one) - rank(other));
}

async function listen(
  server: TestServer,
  client: TestClient,
): Promise<{ readonly frames: string[]; readonly socket: Socket }> {
  const frames: string[] = [];
  const socket = io(server.url, {
    transports: ['websocket'],
    extraHeaders: { cookie: client.cookie(), origin: server.url },
  });
  await new Promise<void>((ready, refuse) => {
    socket.on('connect', () => ready());
    socket.on('connect_error', refuse);
  });
  socket.io.engine.on('packet', (packet: unknown) => frames.push(JSON.stringify(packet)));
  return { frames, socket };
}

/** All numbers of an answer that could be a score: those under counting and timing keys are left out by name. */
function numbersIn(value: unknown, key = ''): number[] {
  if (typeof value === 'number')
    return /^(at|seq|version|versions|all|own|httpStatus|low|high|position|place|ageDays|grams|puppies|criteria|line|code|counter)$/.test(
      key,
    )
      ? []
      : [value];
  if (Array.isArray(value)) return value.flatMap((one) => numbersIn(one, key));
  if (typeof value === 'object' && value !== null)
    return Object.entries(value).flatMap(([name, one]) => numbersIn(one, name));
  return [];
}

const stages = ['open', 'closed'] as const;

it.each(stages.flatMap((stage) => labels.map((viewer) => [stage, viewer] as const)))(
  'BL1: with the round %s no answer of any procedure, and no socket frame, tells %s of another seat’s card',
  async (stage, viewer) => {
    await using server = await startTestServer();
    const quillmarsh = await seedQuillmarsh(await server.owner());
    await quillmarsh.owner.api.evaluation.openRound.mutate({ id: quillmarsh.id });
    const client = clientOf(quillmarsh, viewer);
    const ear = await listen(server, client);
    for (const label of labels) await plant(quillmarsh, label);
    if (stage === 'closed') for (const label of labels) await lockCard(clientOf(quillmarsh, label), quillmarsh.id);
    const known = await knownFields(quillmarsh);
    expect((await quillmarsh.owner.api.evaluation.get.query({ id: quillmarsh.id })).round?.state).toBe(stage);
    const heard: string[] = [];
    let granted = 0;
    const procedures = listProcedures();
    for (const round of [1, 2]) {
      for (const procedure of round === 1
        ? inSafeOrder(procedures)
        : procedures.filter((one) => one.kind === 'query')) {
        if (procedure.path === 'session.leave' && round === 1) continue;
        // A closed round is what the owner may reveal: that, and the day after it, are other tests'.
        if (procedure.path === 'evaluation.revealRound' && stage === 'closed') continue;
        const promised =
          procedure.path === 'card.lock' && stage === 'open' ? await promiseOf(client, quillmarsh.id) : {};
        const input = procedure.input ? sampleInput(procedure.input, { ...known, ...promised }) : undefined;
        const answered = await callProcedure(client, procedure, input);
        heard.push(answered.body);
        if (answered.status === 200) granted += 1;
      }
    }
    ear.socket.close();
    const others = labels.filter((label) => label !== viewer).map((label) => canaries[label]);
    const everything = [...heard, ...ear.frames, ...server.logged].join('\n');
    for (const { word } of others) expect(everything).not.toContain(word);
    const numbers = new Set(heard.flatMap((body) => numbersIn(JSON.parse(body))));
    for (const { chance } of others) expect(numbers).not.toContain(chance);
    // The import's own row is the viewer's typing; everything else that is a 2, 3, 5 or 6 would be another seat's score.
    for (const { score } of others.filter((one) => one.score !== 5)) expect(numbers).not.toContain(score);
    expect(procedures.length).toBeGreaterThan(30);
    expect(granted).toBeGreaterThan(viewer === 'breeder' ? 20 : 8);
    expect(ear.frames.length).toBeGreaterThan(0);
  },
);

it('BL1: the canaries are there to be found: the seat itself reads them, and so does the board after reveal', async () => {
  await using server = await startTestServer();
  const quillmarsh = await seedQuillmarsh(await server.owner());
  await quillmarsh.owner.api.evaluation.openRound.mutate({ id: quillmarsh.id });
  for (const label of labels) await plant(quillmarsh, label);
  const own = JSON.stringify(await clientOf(quillmarsh, 'mentor').api.card.mine.query({ id: quillmarsh.id }));
  expect(own).toContain(canaries.mentor.word);
  await lockCard(quillmarsh.owner, quillmarsh.id);
  await quillmarsh.owner.api.evaluation.closeRound.mutate({ id: quillmarsh.id });
  await quillmarsh.owner.api.evaluation.revealRound.mutate({ id: quillmarsh.id });
  const board = JSON.stringify(await clientOf(quillmarsh, 'photographer').api.board.get.query({ id: quillmarsh.id }));
  for (const label of labels) expect(board).toContain(canaries[label].word);
});
