import type { Entry, EntryBody } from '#lib/contract/entry';
import { checkKeys } from '#lib/sheet/check';
import { systemRandom } from '#server/random';
import { lockCard } from './lockCard';
import { scoreCard, steadyCell, type CellOf } from './scoreCards';
import { seedQuillmarsh, type Quillmarsh } from './seedQuillmarsh';
import type { TestServer } from './startTestServer';
import type { TestClient } from './testClient';

const hour = 3_600_000;

/** Close enough for second looks to be worth it. */
const nearlyAlike: CellOf = (cell) => (cell.seat === 'mentor' && cell.puppy === 'Fern' ? 3 : steadyCell(cell));

const entryOf = (subject: string, counter: number, body: EntryBody): Entry => ({
  id: systemRandom.id(),
  subject,
  counter,
  madeAt: 1,
  body,
});

/**
 * A day with everything in it that the record tells of, through the API to its seal and a home's link: a withdrawn puppy,
 * cards that changed places, a reissued seat, a further close after a reopening, late entries before and after the reveal, a
 * second round, second looks, a note, an answer to a hold, a pick taken back and made anew, a person's words removed.
 */
export async function playWholeDay(server: TestServer): Promise<Quillmarsh> {
  const day = await seedQuillmarsh(await server.owner(), { puppies: 4 });
  const { id, owner, seats } = day;
  await scoreFirstRound(server, day);
  const everyone = [...Object.values(seats), owner];
  for (const client of everyone) await lockCard(client, id, systemRandom.id());
  const first = (await owner.api.evaluation.get.query({ id })).round?.showings[0]?.id ?? '';
  await seats['co-owner']?.api.card.submit.mutate({
    id,
    entries: [entryOf(first, 90, { kind: 'note', criterion: null, text: 'late, before the reveal' })],
  });
  await owner.api.evaluation.revealRound.mutate({ id });
  server.pass(hour);
  await seats['photographer']?.api.card.submit.mutate({
    id,
    entries: [entryOf(first, 91, { kind: 'note', criterion: null, text: 'late, after the reveal' })],
  });
  await secondRound(day);
  server.pass(hour);
  await decideAll(server, day);
  return day;
}

async function scoreFirstRound(server: TestServer, { id, owner, seats }: Quillmarsh): Promise<void> {
  const view = await owner.api.evaluation.get.query({ id });
  const sedge = view.puppies.find((puppy) => puppy.name === 'Sedge')?.id ?? '';
  await owner.api.evaluation.withdrawPuppy.mutate({ id, puppyId: sedge, reason: 'tired' });
  await owner.api.evaluation.openRound.mutate({ id, unconfirmed: true });
  for (const client of [owner, ...Object.values(seats)]) await scoreCard(client, id, nearlyAlike);
  const [fern, moss] = (await owner.api.evaluation.get.query({ id })).round?.showings ?? [];
  await owner.api.card.submit.mutate({
    id,
    entries: [entryOf(fern?.id ?? '', 2, { kind: 'check', check: 'bite', answer: 'undershot', detail: '2 mm' })],
  });
  server.pass(hour);
  await seats['co-owner']?.api.card.move.mutate({
    id,
    from: fern?.id ?? '',
    to: moss?.id ?? '',
    moveId: systemRandom.id(),
  });
  server.pass(hour);
  await reissueMentor(server, { id, owner, seats });
  for (const client of [...Object.values(seats), owner]) await lockCard(client, id);
  await owner.api.evaluation.reopenRound.mutate({ id });
}

/** Her first device is lost; the new one takes her place among the clients. */
async function reissueMentor(
  server: TestServer,
  { id, owner, seats }: Pick<Quillmarsh, 'id' | 'owner' | 'seats'>,
): Promise<void> {
  const mentor = (await owner.api.evaluation.get.query({ id })).seats.find((seat) => seat.label === 'mentor')?.id ?? '';
  const { token } = await owner.api.setup.reissue.mutate({ id, seatId: mentor });
  const fresh = server.stranger();
  await fresh.api.session.join.mutate({ token });
  Object.assign(seats, { mentor: fresh });
}

async function secondRound({ id, owner, seats }: Quillmarsh): Promise<void> {
  const view = await owner.api.evaluation.get.query({ id });
  const criterion = view.sheet.criteria.find((one) => !one.handsOnly && !one.twoSided)?.key ?? '';
  const [fern, moss] = view.puppies;
  const cells = [fern, moss].map((puppy) => ({ puppyId: puppy?.id ?? '', criterion }));
  await owner.api.evaluation.openSecondRound.mutate({ id, cells });
  const subject = (await owner.api.evaluation.get.query({ id })).round?.showings[0]?.id ?? '';
  const again = (client: TestClient | undefined, value: number) =>
    client?.api.card.submit.mutate({
      id,
      entries: [entryOf(subject, 1, { kind: 'score', criterion, value, cannotJudge: false })],
    });
  await again(seats['mentor'], 5);
  await again(owner, 4);
  // The photographer does not lock: the owner closes over that seat.
  for (const client of [seats['mentor'], seats['co-owner'], owner]) await lockCard(client, id);
  await owner.api.evaluation.closeRound.mutate({ id });
  await owner.api.evaluation.revealRound.mutate({ id });
}

async function decideAll(server: TestServer, { id, owner, seats }: Quillmarsh): Promise<void> {
  const view = await owner.api.evaluation.get.query({ id });
  const [fern, moss] = view.puppies;
  const slotId = view.slots[0]?.id ?? '';
  await owner.api.board.get.query({ id });
  const { lookIds } = await owner.api.look.open.mutate({
    id,
    slotId,
    medium: 'table',
    pairs: [{ firstPuppyId: fern?.id ?? '', secondPuppyId: moss?.id ?? '' }],
  });
  for (const [client, choice] of [
    [owner, 'first'],
    [seats['mentor'], 'second'],
    [seats['co-owner'], 'tie'],
  ] as const) {
    await client?.api.look.answer.mutate({
      id,
      answer: { id: systemRandom.id(), lookId: lookIds[0] ?? '', choice, criterion: null, madeAt: 1 },
    });
  }
  await seats['co-owner']?.api.board.addNote.mutate({
    id,
    noteId: systemRandom.id(),
    slotId: null,
    puppyId: fern?.id ?? null,
    otherPuppyId: null,
    criterion: null,
    text: 'the rear decides',
  });
  const bite = { id, puppyId: fern?.id ?? '', check: 'bite', by: 'a veterinary surgeon' };
  await owner.api.decision.answerHold.mutate({ ...bite, answer: 'not today', choice: { kind: 'stays' } });
  await owner.api.decision.answerHold.mutate({
    ...bite,
    answer: 'look once more',
    choice: { kind: 'again', on: '2099-01-01' },
  });
  await owner.api.decision.answerHold.mutate({ ...bite, answer: 'no concern', choice: { kind: 'cleared' } });
  const pick = {
    id,
    slotId,
    puppyId: moss?.id ?? null,
    unexamined: [...checkKeys],
    reason: 'the better mover',
    preference: false,
  };
  await owner.api.decision.make.mutate(pick);
  await owner.api.decision.takeBack.mutate({ id });
  await owner.api.decision.make.mutate({ ...pick, puppyId: fern?.id ?? null, reason: 'the talk changed my mind' });
  server.pass(hour);
  await owner.api.person.remove.mutate({
    id,
    seatId: view.seats.find((seat) => seat.label === 'photographer')?.id ?? '',
  });
  await owner.api.board.get.query({ id });
  await owner.api.addendum.write.mutate({
    id,
    addendum: { kind: 'behaviour', puppyId: fern?.id ?? '', text: 'follows everybody', by: 'whoever raised her' },
  });
  await owner.api.decision.seal.mutate({ id });
  await owner.api.addendum.write.mutate({
    id,
    addendum: {
      kind: 'veterinary',
      puppyId: fern?.id ?? '',
      check: 'gait',
      text: 'sound',
      by: 'a veterinary surgeon',
      choice: { kind: 'cleared' },
    },
  });
  await owner.api.addendum.write.mutate({
    id,
    addendum: { kind: 'correction', puppyId: null, text: 'the litter was whelped a day earlier' },
  });
  await owner.api.addendum.write.mutate({
    id,
    addendum: { kind: 'home', puppyId: fern?.id ?? '', text: 'stays with the breeder' },
  });
  await owner.api.home.link.mutate({ id, puppyId: fern?.id ?? '', along: { contact: '', photoId: null } });
}
