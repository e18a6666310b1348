import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { usualPlan } from '#lib/contract/plan';
import { restoreData } from '#server/backup/restoreData';
import { verifyData } from '#server/reveal/verifyData';
import { cardsHash } from '#server/write/commitCards';
import { codeOf } from '#tests/support/codeOf';
import { dataOf } from '#tests/support/dataOf';
import { joinDirectly } from '#tests/support/joinDirectly';
import { lockCard } from '#tests/support/lockCard';
import { addPaperSeat, filledSheet, paperSeatOf } from '#tests/support/paperSeat';
import { readEverything } from '#tests/support/readEverything';
import { scoreCard, steadyCell } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';

const seatInput = { label: 'neighbour', kind: 'hands', leads: false, picks: false, interest: '' } as const;

/** A panel of the owner, the mentor and a neighbour on paper, its round open and the owner's card locked. */
async function paperDay(server: TestServer, { locked = true, anonymous = false } = {}) {
  const day = await seedQuillmarsh(await server.owner(), { puppies: 2, panel: ['mentor'] });
  const { id, owner } = day;
  const seatId = await addPaperSeat(day);
  if (anonymous) {
    const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, order } =
      await owner.api.setup.get.query({ id });
    await owner.api.setup.save.mutate({
      id,
      input: { name, heldOn, medium, callLink, callNumber, tableNote },
      sheetId,
      purposes,
      slots: [],
      order,
      plan: { ...usualPlan, discussion: 'anonymous' },
    });
  }
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  for (const client of [owner, day.seats['mentor']]) if (client) await scoreCard(client, id, steadyCell);
  if (locked) await lockCard(owner, id);
  const { sheets } = await paperSeatOf(owner, id, seatId);
  const type = async (at: number, score = 4, word = 'a word') =>
    owner.api.paper.type.mutate({
      id,
      seatId,
      showingId: sheets[at]?.showingId ?? '',
      bodies: await filledSheet(owner, id, { score, word }),
    });
  return { ...day, seatId, sheets, type };
}

async function refusalOf(server: TestServer, call: () => Promise<unknown>): Promise<string> {
  const before = dataOf(server.runtime.db);
  const code = await call().then(() => 'granted', codeOf);
  if (dataOf(server.runtime.db) !== before) return `${code}, and changed something`;
  return code;
}

describe('a seat marked on paper', () => {
  it('BL1: is one that scores, before the first round, without a device, not the owner’s own, marked by the owner', async () => {
    await using server = await startTestServer();
    const { id, owner, seats } = await seedQuillmarsh(await server.owner(), { puppies: 2, panel: ['mentor'] });
    const secretary = joinDirectly(server, id, { ...seatInput, label: 'secretary', kind: 'none', organises: true });
    const faces = (await owner.api.evaluation.get.query({ id })).seats;
    const seatId = (label: string) => faces.find((seat) => seat.label === label)?.id ?? '';
    const mark = (
      seat: Parameters<typeof owner.api.setup.saveSeat.mutate>[0]['seat'],
      standing: string | null = null,
      client = owner,
    ) =>
      refusalOf(server, () =>
        client.api.setup.saveSeat.mutate({ id, seatId: standing, seat: { ...seat, paper: true } }),
      );
    expect(await mark({ ...seatInput, label: 'breeder' }, seatId('breeder'))).toBe('in-use');
    expect(await mark({ ...seatInput, label: 'mentor' }, seatId('mentor'))).toBe('in-use');
    expect(await mark({ ...seatInput, kind: 'none' })).toBe('bad-input');
    expect(await mark({ ...seatInput, leads: true })).toBe('bad-input');
    expect(await mark(seatInput, null, secretary)).toBe('not-allowed');
    expect(await mark(seatInput, null, seats['mentor'])).toBe('not-allowed');
    await owner.api.evaluation.openRound.mutate({ id });
    expect(await mark(seatInput)).toBe('wrong-phase');
  });

  it('BL1: gets no device: its links die with the mark, and no new one is made', async () => {
    await using server = await startTestServer();
    const { id, owner } = await seedQuillmarsh(await server.owner(), { puppies: 2, panel: ['mentor'] });
    const { id: seatId } = await owner.api.setup.saveSeat.mutate({ id, seatId: null, seat: seatInput });
    const { token } = await owner.api.setup.invite.mutate({ id, seatId });
    const { code } = await owner.api.setup.spokenCode.mutate({ id, seatId });
    await owner.api.setup.saveSeat.mutate({ id, seatId, seat: { ...seatInput, paper: true } });
    expect(await server.stranger().api.session.join.mutate({ token }).catch(codeOf)).toBe('link-dead');
    expect(await server.stranger().api.session.joinByCode.mutate({ code }).catch(codeOf)).toBe('wrong-secret');
    expect(await refusalOf(server, () => owner.api.setup.invite.mutate({ id, seatId }))).toBe('in-use');
    expect(await refusalOf(server, () => owner.api.setup.spokenCode.mutate({ id, seatId }))).toBe('in-use');
    expect(await refusalOf(server, () => owner.api.setup.reissue.mutate({ id, seatId }))).toBe('not-allowed');
    expect((await owner.api.setup.get.query({ id })).seats.find((seat) => seat.id === seatId)?.paper).toBe(true);
  });

  it('BL9: stands in nothing that another seat reads before the round, and not in a lesson', async () => {
    await using server = await startTestServer();
    const day = await seedQuillmarsh(await server.owner(), { puppies: 2, panel: ['mentor'] });
    await addPaperSeat(day);
    const heard = await readEverything(day.seats['mentor'] ?? day.owner, { id: day.id });
    expect(heard.join('\n')).not.toContain('"paper":');
    const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, order, seats } =
      await day.owner.api.setup.get.query({ id: day.id });
    const lesson = {
      ...usualPlan,
      kind: 'lesson' as const,
      learnerSeatId: seats.find((seat) => seat.owner)?.id ?? null,
    };
    const save = () =>
      day.owner.api.setup.save.mutate({
        id: day.id,
        input: { name, heldOn, medium, callLink, callNumber, tableNote },
        sheetId,
        purposes,
        slots: [],
        order,
        plan: lesson,
      });
    expect(await refusalOf(server, save)).toBe('bad-input');
  });
});

describe('typing a card', () => {
  it('BL1: is refused for a seat with a device, by anybody but the owner, before the round, while her own card is open, and after the lock', async () => {
    await using server = await startTestServer();
    const early = await seedQuillmarsh(await server.owner(), { puppies: 2, panel: ['mentor'] });
    const earlySeat = await addPaperSeat(early);
    const bodies = await filledSheet(early.owner, early.id, { score: 4, word: 'early' });
    expect(
      await refusalOf(server, () =>
        early.owner.api.paper.type.mutate({ id: early.id, seatId: earlySeat, showingId: 'a'.repeat(32), bodies }),
      ),
    ).toBe('wrong-phase');
    const day = await paperDay(server, { locked: false });
    const { id, owner, seats, seatId, sheets } = day;
    const type = (as = owner, seat = seatId) =>
      refusalOf(server, () =>
        as.api.paper.type.mutate({ id, seatId: seat, showingId: sheets[0]?.showingId ?? '', bodies }),
      );
    expect(await type()).toBe('own-card-open');
    await lockCard(owner, id);
    const mentor =
      (await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === 'mentor')?.id ?? '';
    expect(await type(owner, mentor)).toBe('not-allowed');
    expect(await type(seats['mentor'])).toBe('not-allowed');
    expect(await refusalOf(server, () => owner.api.paper.lock.mutate({ id, seatId, signedAt: '' }))).toBe('still-open');
    await day.type(0);
    expect(await refusalOf(server, () => owner.api.paper.lock.mutate({ id, seatId, signedAt: '' }))).toBe('still-open');
    await day.type(1);
    await owner.api.paper.lock.mutate({ id, seatId, signedAt: '11.40' });
    expect(await type()).toBe('wrong-phase');
  });

  it('BL1: an owner without a card of her own may type at once', async () => {
    await using server = await startTestServer();
    const day = await seedQuillmarsh(await server.owner(), { puppies: 1, panel: ['mentor'] });
    const { id, owner } = day;
    const own = (await owner.api.setup.get.query({ id })).seats.find((seat) => seat.owner);
    await owner.api.setup.saveSeat.mutate({
      id,
      seatId: own?.id ?? '',
      seat: { ...seatInput, label: 'breeder', kind: 'none', picks: true },
    });
    const seatId = await addPaperSeat(day);
    await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
    const { sheets } = await paperSeatOf(owner, id, seatId);
    await owner.api.paper.type.mutate({
      id,
      seatId,
      showingId: sheets[0]?.showingId ?? '',
      bodies: await filledSheet(owner, id, { score: 4, word: '' }),
    });
    expect((await paperSeatOf(owner, id, seatId)).sheets[0]?.typed).not.toBeNull();
  });

  it('BL1: nothing typed is told again before the reveal, to nobody, by no query, refusal or line of the log', async () => {
    await using server = await startTestServer();
    const { id, owner, seats, seatId, sheets, type } = await paperDay(server);
    await type(0, 7, 'quince on the shoulder');
    const wrong = [
      ...(await filledSheet(owner, id, { score: 4, word: 'medlar in the hock' })),
      { kind: 'score', criterion: 'no-such', value: 2, cannotJudge: false } as const,
    ];
    expect(
      await refusalOf(server, () =>
        owner.api.paper.type.mutate({ id, seatId, showingId: sheets[0]?.showingId ?? '', bodies: wrong }),
      ),
    ).toBe('bad-input');
    await type(0, 2, 'sloe below the tail');
    for (const client of [owner, seats['mentor'] ?? owner]) {
      const heard = [
        ...(await readEverything(client, { id, seq: 3, seatId, showingId: sheets[0]?.showingId })),
        ...client.received,
      ].join('\n');
      expect(heard).not.toMatch(/quince|medlar|sloe/);
    }
    expect(server.logged.join('\n')).not.toMatch(/quince|medlar|sloe/);
    const [typed] = (await paperSeatOf(owner, id, seatId)).sheets;
    expect(typed?.typed).toEqual({ at: server.runtime.clock.now(), answers: typed?.asked });
  });

  it('BL1: nor at its lock, at the close, after a reopening and from the file of the evaluation; after the reveal it is there', async () => {
    await using server = await startTestServer();
    const { id, owner, seats, seatId, type } = await paperDay(server);
    const mentor = seats['mentor'] ?? owner;
    const heardBy = async (client: typeof owner) => {
      const file = await fetch(`${client.url}/api/evaluation/${id}`, { headers: { cookie: client.cookie() } });
      return [...(await readEverything(client, { id, seq: 3, seatId })), String(file.status), await file.text()].join(
        '\n',
      );
    };
    const nobodyHears = async () => {
      for (const client of [owner, mentor]) expect(await heardBy(client)).not.toContain('quince');
      expect(server.logged.join('\n')).not.toContain('quince');
    };
    for (const at of [0, 1]) await type(at, 7, 'quince on the shoulder');
    await owner.api.paper.lock.mutate({ id, seatId, signedAt: '' });
    await nobodyHears();
    await owner.api.evaluation.closeRound.mutate({ id });
    await nobodyHears();
    await owner.api.evaluation.reopenRound.mutate({ id });
    await nobodyHears();
    await owner.api.evaluation.closeRound.mutate({ id });
    await owner.api.evaluation.revealRound.mutate({ id });
    for (const client of [owner, mentor]) expect(await heardBy(client)).toContain('quince');
  });

  it('BL4: what owner and mentor are told until the close is the same to the byte, whatever was typed', async () => {
    const play = async (score: number, word: string) => {
      await using server = await startTestServer({ seed: 'paper worlds' });
      const { id, owner, seats, type } = await paperDay(server);
      const heard: string[] = [];
      for (const at of [0, 1]) {
        await type(at, score, word);
        for (const client of [owner, seats['mentor'] ?? owner])
          heard.push(...(await readEverything(client, { id, seq: 3 }, ['person.mine'])));
      }
      return heard;
    };
    const one = await play(1, 'short');
    expect(one.length).toBeGreaterThan(200);
    expect(await play(7, 'a word of quite another length')).toEqual(one);
  });

  it('SC3: a card typed anew replaces the one before as a whole, and what it leaves out is cleared; history keeps both', async () => {
    await using server = await startTestServer();
    const { id, owner, seatId, sheets, type } = await paperDay(server);
    await type(0, 6, 'first');
    await owner.api.paper.type.mutate({
      id,
      seatId,
      showingId: sheets[0]?.showingId ?? '',
      bodies: [{ kind: 'overall', value: 3, cannotJudge: false }],
    });
    const { $client } = server.runtime.db;
    const standing = $client
      .prepare<[string], { field: string; value: number | null; body: string }>(
        'SELECT field, value, body FROM answer WHERE seat_id = ? ORDER BY field',
      )
      .all(seatId);
    expect(standing.filter(({ value }) => value !== null)).toEqual([
      expect.objectContaining({ field: 'overall', value: 3 }),
    ]);
    expect(standing.find(({ field }) => field === 'note')?.body).not.toContain('first');
    expect($client.prepare('SELECT count(*) FROM entry WHERE seat_id = ?').pluck().get(seatId)).toBe(
      2 * standing.length,
    );
    expect((await paperSeatOf(owner, id, seatId)).sheets[0]?.typed?.answers).toBe(1);
  });

  it('SC1: a card that is none is refused as a whole: a question twice, a choice, nothing said, off the scale', async () => {
    await using server = await startTestServer();
    const { id, owner, seatId, sheets } = await paperDay(server);
    const overall = { kind: 'overall', value: 3, cannotJudge: false } as const;
    const cards = [
      [overall, overall],
      [overall, { kind: 'choice', puppy: null, reason: '', chance: null }],
      [{ ...overall, value: null }],
      [{ ...overall, value: 9 }],
    ] as const;
    const codes = [];
    for (const bodies of cards)
      codes.push(
        await refusalOf(server, () =>
          owner.api.paper.type.mutate({ id, seatId, showingId: sheets[0]?.showingId ?? '', bodies: [...bodies] }),
        ),
      );
    expect(codes).toEqual(['bad-input', 'bad-input', 'bad-input', 'out-of-scale']);
  });
});

describe('once a card was typed', () => {
  it('BL7: no backup from before the owner’s lock is restored once a card was typed; one from after it is', async () => {
    await using server = await startTestServer();
    const folder = mkdtempSync(join(tmpdir(), 'evenstack-paper-'));
    try {
      const { owner, id, type } = await paperDay(server, { locked: false });
      const [before, after, current] = ['before', 'after', 'evenstack'].map((name) => join(folder, `${name}.db`));
      const copy = (to = '') => server.runtime.db.$client.exec(`VACUUM INTO '${to}'`);
      copy(before);
      await lockCard(owner, id);
      copy(after);
      await type(0);
      copy(current);
      const restore = (backup = '', file = '') => restoreData({ backup, file, at: server.runtime.clock.now() });
      const kept = readFileSync(current ?? '');
      await expect(restore(before, current)).rejects.toThrow(
        /owner’s own card again after cards were typed from paper/,
      );
      expect(readFileSync(current ?? '').equals(kept)).toBe(true);
      expect((await restore(after, current)).current).toBe('related');
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  });

  it('BL7: a reopening leaves the owner’s own lock standing, and the record says so; before, it does not', async () => {
    await using server = await startTestServer();
    const { id, owner, seats, seatId, type } = await paperDay(server);
    const stateOf = async (label: string) =>
      (await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === label)?.state;
    await owner.api.evaluation.closeRound.mutate({ id });
    await owner.api.evaluation.reopenRound.mutate({ id });
    expect(await stateOf('breeder')).toBe('joined');
    await lockCard(owner, id);
    await lockCard(seats['mentor'], id);
    await type(0);
    await type(1);
    await owner.api.paper.lock.mutate({ id, seatId, signedAt: '' });
    expect((await owner.api.evaluation.get.query({ id })).round?.state).toBe('closed');
    await owner.api.evaluation.reopenRound.mutate({ id });
    expect([await stateOf('breeder'), await stateOf('mentor')]).toEqual(['locked', 'joined']);
    const { round } = await owner.api.evaluation.get.query({ id });
    const [late] = await owner.api.card.submit.mutate({
      id,
      entries: [
        {
          id: 'c'.repeat(32),
          subject: round?.showings[0]?.id ?? '',
          counter: 900,
          madeAt: 1,
          body: { kind: 'overall', value: 7, cannotJudge: false },
        },
      ],
    });
    expect(late?.status).toBe('late');
    expect(
      (await owner.api.record.list.query({ id }))
        .filter((line) => line.kind === 'round-reopened')
        .map((line) => line.detail),
    ).toEqual(['', 'but for breeder, whose lock stands: cards were typed from paper']);
    // Closed once more with her first commitment, and sound to whoever checks the file.
    await type(0, 5);
    await owner.api.paper.lock.mutate({ id, seatId, signedAt: '' });
    await lockCard(seats['mentor'], id, 'd'.repeat(32));
    await owner.api.evaluation.revealRound.mutate({ id });
    expect(verifyData(server.runtime.db.$client.name).faults).toEqual([]);
  });

  it('BL9: its commitment is the server’s, under a nonce nobody knew, and opens at the reveal like any other', async () => {
    await using server = await startTestServer();
    const { id, owner, seats, seatId, type } = await paperDay(server);
    await type(0);
    await type(1, 6);
    await owner.api.paper.lock.mutate({ id, seatId, signedAt: '11.40' });
    await lockCard(seats['mentor'], id);
    expect(
      (await owner.api.evaluation.get.query({ id })).commitments?.find((one) => one.seat === seatId),
    ).toMatchObject({ by: 'server', locked: true });
    await owner.api.evaluation.revealRound.mutate({ id });
    const opened = (await owner.api.board.commitments.query({ id })).find((one) => one.seat === seatId);
    expect(opened?.cards.length).toBeGreaterThan(20);
    expect(
      cardsHash(opened?.nonce ?? '', { roundId: opened?.roundId ?? '', seatId, answers: opened?.cards ?? [] }),
    ).toBe(opened?.hash);
  });

  it('BL5: board and record say whose card was typed and by whom; an anonymous panel is told how many', async () => {
    for (const anonymous of [false, true]) {
      await using server = await startTestServer();
      const { id, owner, seats, seatId, type } = await paperDay(server, { anonymous });
      await type(0);
      await type(1);
      await owner.api.paper.lock.mutate({ id, seatId, signedAt: '11.40' });
      await lockCard(seats['mentor'], id);
      await owner.api.evaluation.revealRound.mutate({ id });
      const { blindTo } = (await seats['mentor']?.api.board.get.query({ id })) ?? { blindTo: [] };
      expect(blindTo).toContain(
        `${anonymous ? 'One card' : 'The card of neighbour'} was typed from paper by the owner, who saw it then and could no longer score.`,
      );
      const lines = (await seats['mentor']?.api.record.list.query({ id })) ?? [];
      const told = lines
        .filter((line) => line.kind === 'card-typed' || line.kind === 'paper-locked')
        .map((line) => line.detail.replace(/[0-9a-f]{64}/, '#'));
      expect(told).toEqual(
        anonymous
          ? ['a seat [typed #]', 'a seat [typed #]', 'a seat']
          : [
              expect.stringMatching(/^neighbour, sheet [A-Z]\d\d \[typed #\]$/),
              expect.stringMatching(/^neighbour, sheet [A-Z]\d\d \[typed #\]$/),
              'neighbour, signed 11.40',
            ],
      );
    }
  });
});
