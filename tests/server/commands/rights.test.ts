import { expect, it } from 'vitest';
import type { SeatInput } from '#lib/contract/setup';
import { checkKeys } from '#lib/sheet/check';
import { systemRandom } from '#server/random';
import { playToReveal } from '#tests/support/scoreCards';
import { seedQuillmarsh } from '#tests/support/seedQuillmarsh';
import { startTestServer, type TestServer } from '#tests/support/startTestServer';

const code = (expected: string) => ({ data: { code: expected } });
const refused = (call: Promise<unknown>, expected = 'not-allowed') =>
  expect(call).rejects.toMatchObject(code(expected));
const none = { kind: 'none', leads: false, picks: false, interest: '' } as const;

/** The usual panel, and one more seat. */
async function withSeat(server: TestServer, seat: SeatInput) {
  const quillmarsh = await seedQuillmarsh(await server.owner(), { puppies: 2 });
  const { id, owner } = quillmarsh;
  const { id: seatId } = await owner.api.setup.saveSeat.mutate({ id, seatId: null, seat });
  const guest = server.stranger();
  await guest.api.session.join.mutate(await owner.api.setup.invite.mutate({ id, seatId }));
  return { ...quillmarsh, seatId, guest };
}

it('BL1: who organises or only reads does not score: such a seat is refused', async () => {
  await using server = await startTestServer();
  const { id, owner } = await seedQuillmarsh(await server.owner());
  for (const right of ['organises', 'reads'] as const) {
    const seat = { ...none, label: 'both', kind: 'live', [right]: true } as const;
    await expect(owner.api.setup.saveSeat.mutate({ id, seatId: null, seat })).rejects.toMatchObject({
      data: { code: 'bad-input', details: { field: 'kind' } },
    });
  }
});

it('BL1: an organiser prepares and leads the table, but opens, closes, reveals, decides and reissues nothing, gives no rights, and reads no score before reveal', async () => {
  await using server = await startTestServer();
  const quillmarsh = await withSeat(server, { ...none, label: 'club secretary', organises: true });
  const { id, guest: organiser, seatId, owner, seats } = quillmarsh;
  const other = (await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === 'mentor')?.id ?? '';
  await refused(
    organiser.api.setup.saveSeat.mutate({
      id,
      seatId,
      seat: { ...none, label: 'club secretary', organises: true, picks: true },
    }),
  );
  const owners = (await owner.api.evaluation.get.query({ id })).viewer.seatId;
  await refused(
    organiser.api.setup.saveSeat.mutate({ id, seatId: owners, seat: { ...none, label: 'breeder', picks: true } }),
  );
  await refused(
    organiser.api.setup.saveSeat.mutate({ id, seatId: null, seat: { ...none, label: 'friend', picks: true } }),
  );
  await refused(
    organiser.api.setup.saveSeat.mutate({ id, seatId: null, seat: { ...none, label: 'friend', reads: true } }),
  );
  await refused(organiser.api.setup.reissue.mutate({ id, seatId: other }));
  await refused(organiser.api.setup.endSeat.mutate({ id, seatId: other }));
  await refused(organiser.api.evaluation.openRound.mutate({ id }));
  await refused(organiser.api.litter.list.query());
  await refused(organiser.api.evaluation.list.query());
  await refused(seats['mentor']?.api.setup.get.query({ id }) ?? Promise.resolve());

  const setup = await organiser.api.setup.get.query({ id });
  expect(JSON.stringify(setup)).not.toMatch(/Canary (Dam|Sire)/);
  const { id: added } = await organiser.api.setup.saveSeat.mutate({
    id,
    seatId: null,
    seat: { ...none, label: 'second mentor', kind: 'live' },
  });
  const late = server.stranger();
  await late.api.session.joinByCode.mutate({
    code: (await organiser.api.setup.spokenCode.mutate({ id, seatId: added })).code,
  });
  expect((await late.api.session.me.query()).seat?.label).toBe('second mentor');
  const made = (await owner.api.record.list.query({ id })).filter((entry) => entry.kind === 'code-made');
  expect(made.map(({ actor, detail }) => [actor, detail])).toEqual([['club secretary', 'second mentor']]);

  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  const view = await organiser.api.evaluation.get.query({ id });
  expect([view.viewer.organises, view.viewer.leads, view.viewer.owner]).toEqual([true, true, false]);
  await organiser.api.evaluation.moveTable.mutate({ id, showingId: view.round?.showings[1]?.id ?? '' });
  const entry = {
    id: systemRandom.id(),
    subject: view.round?.showings[0]?.id ?? '',
    counter: 1,
    madeAt: 1,
    body: { kind: 'manner', manner: 'relaxed' },
  } as const;
  expect((await organiser.api.card.submit.mutate({ id, entries: [entry] }))[0]).toMatchObject({
    status: 'refused',
    code: 'not-allowed',
  });
  await refused(organiser.api.board.get.query({ id }), 'wrong-phase');
  await refused(organiser.api.evaluation.closeRound.mutate({ id }));
  await refused(organiser.api.evaluation.revealRound.mutate({ id }));
});

it('BL1: a reader reads the board once it is revealed, and neither talks nor decides; a seat without a right reads nothing', async () => {
  await using server = await startTestServer();
  const quillmarsh = await withSeat(server, { ...none, label: 'reader', reads: true });
  const { id, guest: reader, owner } = quillmarsh;
  const { id: helperId } = await owner.api.setup.saveSeat.mutate({
    id,
    seatId: null,
    seat: { ...none, label: 'table person', leads: true },
  });
  const helper = server.stranger();
  await helper.api.session.join.mutate(await owner.api.setup.invite.mutate({ id, seatId: helperId }));
  await refused(reader.api.board.get.query({ id }), 'wrong-phase');
  await refused(reader.api.setup.get.query({ id }));
  await playToReveal(quillmarsh);
  const [slot] = (await owner.api.evaluation.get.query({ id })).slots;
  const slotId = slot?.id ?? '';
  await refused(
    reader.api.board.addNote.mutate({
      id,
      noteId: systemRandom.id(),
      slotId: null,
      puppyId: null,
      otherPuppyId: null,
      criterion: null,
      text: 'hear me',
    }),
  );
  await refused(
    reader.api.decision.make.mutate({
      id,
      slotId,
      puppyId: null,
      unexamined: [...checkKeys],
      reason: '',
      preference: false,
    }),
  );
  await refused(reader.api.decision.seal.mutate({ id }));
  for (const read of [
    helper.api.board.get,
    helper.api.board.coefficients,
    helper.api.board.commitments,
    helper.api.board.notes,
    helper.api.decision.get,
    helper.api.look.list,
  ]) {
    await refused(read.query({ id }));
  }
  expect((await reader.api.board.get.query({ id })).evaluators.length).toBe(4);
  expect((await reader.api.decision.get.query({ id })).mayDecide).toBe(false);
});

it('BL1: a picker who does not score takes her own place and no other', async () => {
  await using server = await startTestServer();
  const quillmarsh = await withSeat(server, { ...none, label: 'stud owner', picks: true });
  const { id, owner, guest: picker, seatId, seats } = quillmarsh;
  const setup = await owner.api.setup.get.query({ id });
  const place = { purpose: 'keep', sex: 'any', condition: '', byWhen: '', ifFails: '' } as const;
  const { name, heldOn, medium, callLink, callNumber, tableNote, sheetId, purposes, order, plan } = setup;
  const slots = [
    { ...place, taker: 'stud owner', seatId },
    { ...place, taker: 'breeder', seatId: null },
  ];
  await owner.api.setup.save.mutate({
    id,
    input: { name, heldOn, medium, callLink, callNumber, tableNote },
    sheetId,
    purposes,
    slots,
    order,
    plan,
  });
  for (const party of [picker, seats['co-owner']]) await party?.api.setup.confirmPickOrder.mutate({ id });
  await playToReveal(quillmarsh);
  const view = await picker.api.evaluation.get.query({ id });
  const [first, second] = view.slots;
  const pick = (slotId: string | undefined, puppyId: string | undefined) =>
    picker.api.decision.make.mutate({
      id,
      slotId: slotId ?? '',
      puppyId: puppyId ?? '',
      unexamined: [...checkKeys],
      reason: '',
      preference: true,
    });
  await pick(first?.id, view.puppies[0]?.id);
  await refused(pick(second?.id, view.puppies[1]?.id));
  expect((await owner.api.decision.get.query({ id })).decisions.map((one) => one.by)).toEqual(['stud owner']);
});
