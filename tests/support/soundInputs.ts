import type { EvaluationView } from '#lib/contract/evaluationView';
import { usualPlan } from '#lib/contract/plan';
import { carefulPicture } from '#lib/photo/measureRatio';
import { checkKeys } from '#lib/sheet/check';
import { builtInSheetIds } from '#server/commands/setup';
import { systemRandom, type Random } from '#server/random';
import { promiseOf } from './lockCard';
import type { Quillmarsh } from './seedQuillmarsh';
import { plainPicture, sendPhoto } from './sendPhoto';
import type { TestClient } from './testClient';

export type Asker = { readonly client: TestClient /** Of its seat. */; readonly label: string };

/**
 * A sound input for each procedure, so that only phase and rights can be the reason for a refusal: it is the owner's who could
 * use it. What names the asker's own seat or cards is made for `asker`; ids that nothing bears are drawn from `random`.
 */
export async function soundInputs(
  { id, owner }: Quillmarsh,
  asker: Asker = { client: owner, label: 'breeder' },
  random: Random = systemRandom,
): Promise<Readonly<Record<string, unknown>>> {
  const view: EvaluationView = await owner.api.evaluation.get.query({ id });
  const setup = await owner.api.setup.get.query({ id });
  const { sheet } = await owner.api.sheet.get.query({ id: builtInSheetIds.short });
  const { name, heldOn, medium, callLink, callNumber, tableNote, litterId, sheetId, purposes, order } = setup;
  const [first, second] = view.puppies;
  const [slot] = view.slots;
  const showing = view.round?.showings[0]?.id ?? random.id();
  const empty = await owner.api.setup.saveSeat
    .mutate({ id, seatId: null, seat: { label: 'guest', kind: 'none', leads: false, picks: false, interest: '' } })
    .catch(() => ({ id: random.id() }));
  const sent = await sendPhoto(owner, {
    evaluation: id,
    puppy: first?.id ?? '',
    bytes: await plainPicture(),
    id: random.id(),
  });
  const photoId = sent.id ?? random.id();
  const placing = { nose: { x: 0.9, y: 0.4 }, stop: { x: 0.7, y: 0.3 }, occiput: { x: 0.5, y: 0.3 } };
  const body = { kind: 'manner', manner: 'relaxed' } as const;
  const csv = `puppy,evaluator,criterion,score\n${first?.name},${asker.label},${view.sheet.criteria.find((one) => !one.twoSided)?.key},5\n`;
  const seatId = (label: string) => view.seats.find((seat) => seat.label === label)?.id;
  return {
    'addendum.write': {
      id,
      addendum: { kind: 'behaviour', puppyId: first?.id, text: 'follows a hand', by: 'whoever raised the litter' },
    },
    'board.addNote': {
      id,
      noteId: random.id(),
      slotId: slot?.id,
      puppyId: null,
      otherPuppyId: null,
      criterion: null,
      text: 'look at the rear',
    },
    'board.askToSpeak': { id, seatId: seatId(asker.label), up: true },
    'card.importScores': { id, text: csv },
    'card.lock': {
      id,
      ...(await promiseOf(asker.client, id).catch(() => ({ nonce: 'a'.repeat(32), commitment: 'b'.repeat(64) }))),
    },
    'card.move': { id, from: showing, to: view.round?.showings[1]?.id ?? random.id(), moveId: random.id() },
    'card.previewImport': { id, text: csv },
    'card.template': { id },
    'card.submit': { id, entries: [{ id: random.id(), subject: showing, counter: 9, madeAt: 1, body }] },
    'decision.answerHold': {
      id,
      puppyId: first?.id,
      check: 'bite',
      answer: 'sound',
      by: 'veterinary surgeon',
      choice: { kind: 'cleared' },
    },
    'decision.make': {
      id,
      slotId: slot?.id,
      puppyId: first?.id,
      unexamined: [...checkKeys],
      reason: '',
      preference: true,
    },
    'demo.enter': { role: 'breeder' },
    'evaluation.moveTable': { id, showingId: showing },
    'evaluation.bringBackPuppy': { id, puppyId: second?.id },
    'evaluation.withdrawPuppy': { id, puppyId: second?.id, reason: 'not well' },
    'evaluation.openRound': { id, unconfirmed: true },
    'evaluation.openSecondRound': { id, cells: [{ puppyId: first?.id, criterion: view.sheet.criteria[0]?.key }] },
    'litter.get': { id: litterId },
    'litter.save': { id: null, litter: { name: 'Another', breed: '', dam: '', sire: '', whelpedOn: '2026-01-01' } },
    'litter.savePuppy': {
      litterId,
      puppyId: null,
      puppy: { name: 'Clover', sex: 'dog', collar: 'grey', secondMark: '', chipDigits: '' },
    },
    'litter.saveWeight': { litterId, puppyId: first?.id, weight: { weighedOn: '2026-09-12', grams: 6000 } },
    'look.answer': { id, answer: { id: random.id(), lookId: random.id(), choice: 'tie', criterion: null, madeAt: 1 } },
    'look.close': { id, batchId: random.id() },
    'look.propose': { id, slotId: slot?.id, medium: 'table' },
    'record.hashAt': { id, seq: 1 },
    'look.open': {
      id,
      slotId: slot?.id,
      medium: 'table',
      pairs: [{ firstPuppyId: first?.id, secondPuppyId: second?.id }],
    },
    'home.end': { id, puppyId: first?.id },
    'home.link': { id, puppyId: first?.id, along: { contact: '', photoId: null } },
    'home.preview': { id, puppyId: first?.id, along: { contact: 'by the gate', photoId: null } },
    'home.read': { token: random.token() },
    'owner.setPassphrase': { current: '', passphrase: 'four or five plain words', endOthers: false },
    'paper.lock': { id, seatId: seatId('mentor'), signedAt: '' },
    'paper.type': {
      id,
      seatId: seatId('mentor'),
      showingId: showing,
      bodies: [{ kind: 'overall', value: 4, cannotJudge: false }],
    },
    'person.remove': { id, seatId: seatId('photographer') },
    'session.answerDevice': { requestId: random.id(), letIn: true },
    'session.endDevice': { deviceId: random.id() },
    'photo.confirmFigure': { id, figure: { ratio: 'muzzle-skull', low: 0.95, high: 1.05, source: 'FCI 145' } },
    'photo.keep': { id, photoId },
    'photo.measure': {
      id,
      photoId,
      measurementId: random.id(),
      measurement: { ratio: 'muzzle-skull', placing, sizeMillimetres: 130, setting: carefulPicture },
    },
    'photo.place': { id, photoId, puppyId: second?.id, view: 'front' },
    'photo.point': {
      id,
      photoId,
      pointerId: random.id(),
      pointer: { kind: 'ring', from: { x: 0.2, y: 0.3 }, to: { x: 0.3, y: 0.3 }, note: 'here' },
    },
    'photo.remove': { id, photoId },
    'photo.saveList': { id, shots: ['front'] },
    'photo.setFair': { id, photoId, fair: false },
    'photo.unpoint': { id, pointerId: random.id() },
    'session.join': { token: random.token() },
    'session.joinByCode': { code: 'K7 0123-4567' },
    'session.signIn': { passphrase: 'four or five plain words' },
    'practice.lock': { id, answers: [{ picture: 'first', criterion: 'neck', value: 1 }] },
    'setup.create': { litterId, sheetId, input: { name, heldOn, medium, callLink, callNumber, tableNote } },
    'setup.endSeat': { id, seatId: seatId('co-owner') },
    'setup.spokenCode': { id, seatId: seatId('mentor') },
    'setup.invite': { id, seatId: view.seats.find((seat) => seat.owner)?.id },
    'setup.reissue': { id, seatId: view.seats.find((seat) => seat.label === 'mentor')?.id },
    'setup.removeSeat': { id, seatId: empty.id },
    'setup.save': {
      id,
      input: { name, heldOn, medium, callLink, callNumber, tableNote },
      sheetId,
      purposes,
      slots: [],
      order,
      plan: usualPlan,
    },
    'setup.saveSeat': {
      id,
      seatId: null,
      seat: { label: 'late guest', kind: 'hands', leads: false, picks: false, interest: '' },
    },
    'sheet.get': { id: builtInSheetIds.short },
    'sheet.save': { id: null, sheet },
  };
}
