import { expect, it } from 'vitest';
import type { EvaluationView } from '#lib/contract/evaluationView';
import { usualPlan } from '#lib/contract/plan';
import { builtInSheetIds } from '#server/commands/seedSheets';
import { carefulPicture } from '#lib/photo/measureRatio';
import { systemRandom } from '#server/random';
import { callProcedure } from '#tests/support/callProcedure';
import { dataOf } from '#tests/support/dataOf';
import { listProcedures } from '#tests/support/listProcedures';
import { promiseOf } from '#tests/support/lockCard';
import { plainPicture, sendPhoto } from '#tests/support/sendPhoto';
import type { Quillmarsh } from '#tests/support/seedQuillmarsh';
import { bringTo, stages, type Stage } from '#tests/support/stages';
import { startTestServer } from '#tests/support/startTestServer';

const always = stages;

/** When the owner may do what. A procedure that is not declared here fails the first test. */
const allowed: Readonly<Record<string, readonly Stage[]>> = {
  'board.addNote': ['revealed'],
  'board.askToSpeak': ['revealed'],
  'board.coefficients': ['revealed', 'sealed'],
  'board.commitments': ['revealed', 'sealed'],
  'board.get': ['revealed', 'sealed'],
  'board.hands': always,
  'board.notes': always,
  'card.importScores': ['open'],
  'card.lock': ['open'],
  'card.mine': always,
  'card.move': ['open'],
  'card.previewImport': ['open'],
  'card.submit': always,
  'decision.clearHold': [],
  'decision.get': ['revealed', 'sealed'],
  'decision.make': ['revealed'],
  'decision.seal': [],
  'decision.takeBack': [],
  // In the demo only: on the server that people use there is no demo to be found, at any stage.
  'demo.enter': [],
  'demo.get': [],
  'demo.playToReveal': [],
  'demo.sitIn': [],
  'evaluation.closeRound': [],
  'evaluation.get': always,
  'evaluation.list': always,
  'evaluation.moveTable': ['open'],
  'evaluation.openRound': ['preparing'],
  // After a reveal, with nothing decided and no look open: tests/server/commands/secondRound.test.ts.
  'evaluation.openSecondRound': [],
  'evaluation.reopenRound': ['closed'],
  'evaluation.revealRound': ['closed'],
  'evaluation.withdrawPuppy': ['preparing', 'open', 'closed'],
  'home.end': ['sealed'],
  'home.link': ['sealed'],
  'home.list': always,
  // By a home's link, which no input here is: tests/server/commands/home.test.ts.
  'home.read': [],
  // A lesson, at the mentor's lock: tests/server/commands/lessonRound.test.ts.
  'lesson.get': [],
  'lesson.progress': [],
  'litter.get': always,
  'litter.list': always,
  'litter.save': always,
  'litter.savePuppy': always,
  'practice.get': always,
  'practice.lock': ['preparing'],
  'record.hashAt': always,
  'litter.saveWeight': always,
  'look.answer': [],
  'look.close': [],
  'look.list': always,
  'look.open': ['revealed'],
  'look.propose': ['revealed', 'sealed'],
  'owner.get': always,
  'owner.setPassphrase': always,
  'person.mine': always,
  'person.remove': ['preparing', 'revealed', 'sealed'],
  'photo.confirmFigure': always,
  'photo.figures': always,
  'photo.keep': ['preparing', 'open', 'closed'],
  'photo.list': always,
  'photo.marks': always,
  'photo.measure': ['preparing', 'open', 'closed', 'revealed'],
  'photo.place': ['preparing', 'open', 'closed', 'revealed'],
  'photo.point': ['preparing', 'open', 'closed', 'revealed'],
  'photo.remove': ['preparing', 'open', 'closed', 'revealed'],
  'photo.saveList': ['preparing', 'open', 'closed', 'revealed'],
  'photo.setFair': ['preparing', 'open', 'closed', 'revealed'],
  'photo.unpoint': [],
  'record.list': always,
  // Where a device asks to be let in: tests/server/commands/furtherDevice.test.ts.
  'session.answerDevice': [],
  'session.devices': always,
  'session.endDevice': [],
  'session.furtherCode': always,
  'session.join': [],
  'session.joinByCode': [],
  'session.leave': always,
  'session.me': always,
  'session.signIn': [],
  'setup.confirmPickOrder': ['preparing'],
  'setup.create': always,
  'setup.endSeat': always,
  'setup.get': always,
  'setup.invite': [],
  'setup.reissue': ['preparing', 'open', 'closed', 'revealed'],
  'setup.removeSeat': ['preparing'],
  'setup.save': ['preparing'],
  'setup.saveSeat': ['preparing', 'open'],
  'setup.spokenCode': ['preparing', 'open', 'closed', 'revealed'],
  'sheet.get': always,
  'sheet.list': always,
  'sheet.save': always,
  'storage.get': always,
};

/** A sound input for each procedure, so that only the phase can be the reason for a refusal. */
async function inputsOf({ id, owner }: Quillmarsh): Promise<Readonly<Record<string, unknown>>> {
  const view: EvaluationView = await owner.api.evaluation.get.query({ id });
  const setup = await owner.api.setup.get.query({ id });
  const { sheet } = await owner.api.sheet.get.query({ id: builtInSheetIds.short });
  const { name, heldOn, medium, callLink, callNumber, tableNote, litterId, sheetId, purposes, order } = setup;
  const [first, second] = view.puppies;
  const [slot] = view.slots;
  const showing = view.round?.showings[0]?.id ?? systemRandom.id();
  const empty = await owner.api.setup.saveSeat
    .mutate({ id, seatId: null, seat: { label: 'guest', kind: 'none', leads: false, picks: false, interest: '' } })
    .catch(() => ({ id: systemRandom.id() }));
  const sent = await sendPhoto(owner, { evaluation: id, puppy: first?.id ?? '', bytes: await plainPicture() });
  const photoId = sent.id ?? systemRandom.id();
  const placing = { nose: { x: 0.9, y: 0.4 }, stop: { x: 0.7, y: 0.3 }, occiput: { x: 0.5, y: 0.3 } };
  const body = { kind: 'manner', manner: 'relaxed' } as const;
  const csv = `puppy,evaluator,criterion,score\n${first?.name},breeder,${view.sheet.criteria.find((one) => !one.twoSided)?.key},5\n`;
  const seatId = (label: string) => view.seats.find((seat) => seat.label === label)?.id;
  return {
    'board.addNote': { id, noteId: systemRandom.id(), slotId: slot?.id, puppyId: null, otherPuppyId: null, criterion: null, text: 'look at the rear' },
    'board.askToSpeak': { id, seatId: view.viewer.seatId, up: true },
    'card.importScores': { id, text: csv },
    'card.lock': { id, ...(await promiseOf(owner, id)) },
    'card.move': { id, from: showing, to: view.round?.showings[1]?.id ?? systemRandom.id(), moveId: systemRandom.id() },
    'card.previewImport': { id, text: csv },
    'card.submit': { id, entries: [{ id: systemRandom.id(), subject: showing, counter: 9, madeAt: 1, body }] },
    'decision.clearHold': { id, puppyId: first?.id, check: 'bite', answer: 'sound', by: 'veterinary surgeon' },
    'decision.make': { id, slotId: slot?.id, puppyId: first?.id, reason: '', preference: true },
    'evaluation.moveTable': { id, showingId: showing },
    'evaluation.withdrawPuppy': { id, puppyId: second?.id, reason: 'not well' },
    'evaluation.openRound': { id, unconfirmed: true },
    'evaluation.openSecondRound': { id, cells: [{ puppyId: first?.id, criterion: view.sheet.criteria[0]?.key }] },
    'litter.get': { id: litterId },
    'litter.save': { id: null, litter: { name: 'Another', breed: '', dam: '', sire: '', whelpedOn: '2026-01-01' } },
    'litter.savePuppy': { litterId, puppyId: null, puppy: { name: 'Clover', sex: 'dog', collar: 'grey', secondMark: '', chipDigits: '' } },
    'litter.saveWeight': { litterId, puppyId: first?.id, weight: { weighedOn: '2026-09-12', grams: 6000 } },
    'look.answer': { id, answer: { id: systemRandom.id(), lookId: systemRandom.id(), choice: 'tie', criterion: null, madeAt: 1 } },
    'look.close': { id, batchId: systemRandom.id() },
    'look.propose': { id, slotId: slot?.id, medium: 'table' },
    'record.hashAt': { id, seq: 1 },
    'look.open': { id, slotId: slot?.id, medium: 'table', pairs: [{ firstPuppyId: first?.id, secondPuppyId: second?.id }] },
    'home.end': { id, puppyId: first?.id },
    'home.link': { id, puppyId: first?.id },
    'home.read': { token: systemRandom.token() },
    'owner.setPassphrase': { current: '', passphrase: 'four or five plain words', endOthers: false },
    'person.remove': { id, seatId: seatId('photographer') },
    'session.answerDevice': { requestId: systemRandom.id(), letIn: true },
    'session.endDevice': { deviceId: systemRandom.id() },
    'photo.confirmFigure': { id, figure: { ratio: 'muzzle-skull', low: 0.95, high: 1.05, source: 'FCI 145' } },
    'photo.keep': { id, photoId },
    'photo.measure': { id, photoId, measurementId: systemRandom.id(), measurement: { ratio: 'muzzle-skull', placing, sizeMillimetres: 130, setting: carefulPicture } },
    'photo.place': { id, photoId, puppyId: second?.id, view: 'front' },
    'photo.point': { id, photoId, pointerId: systemRandom.id(), pointer: { kind: 'ring', from: { x: 0.2, y: 0.3 }, to: { x: 0.3, y: 0.3 }, note: 'here' } },
    'photo.remove': { id, photoId },
    'photo.saveList': { id, shots: ['front'] },
    'photo.setFair': { id, photoId, fair: false },
    'photo.unpoint': { id, pointerId: systemRandom.id() },
    'session.join': { token: systemRandom.token() },
    'session.joinByCode': { code: '0123-4567' },
    'session.signIn': { passphrase: 'four or five plain words' },
    'practice.lock': { id, answers: [{ picture: 'first', criterion: 'neck', value: 1 }] },
    'setup.create': { litterId, sheetId, input: { name, heldOn, medium, callLink, callNumber, tableNote } },
    'setup.endSeat': { id, seatId: seatId('co-owner') },
    'setup.spokenCode': { id, seatId: seatId('mentor') },
    'setup.invite': { id, seatId: view.seats.find((seat) => seat.owner)?.id },
    'setup.reissue': { id, seatId: view.seats.find((seat) => seat.label === 'mentor')?.id },
    'setup.removeSeat': { id, seatId: empty.id },
    'setup.save': { id, input: { name, heldOn, medium, callLink, callNumber, tableNote }, sheetId, purposes, slots: [], order, plan: usualPlan },
    'setup.saveSeat': { id, seatId: null, seat: { label: 'late guest', kind: 'hands', leads: false, picks: false, interest: '' } },
    'sheet.get': { id: builtInSheetIds.short },
    'sheet.save': { id: null, sheet },
  };
}

it('BL2: every procedure is declared, with the stages in which it may be called', () => {
  expect(Object.keys(allowed).toSorted()).toEqual(listProcedures().map((one) => one.path));
});

it.each(stages)('BL2, BL6, BL7: at stage %s every procedure is granted or refused as declared, and a refusal changes nothing', async (stage) => {
  await using server = await startTestServer();
  const quillmarsh = await bringTo(server, stage);
  const inputs = await inputsOf(quillmarsh);
  const faults: string[] = [];
  for (const procedure of listProcedures().filter((one) => !allowed[one.path]?.includes(stage))) {
    const before = dataOf(server.runtime.db);
    const answered = await callProcedure(quillmarsh.owner, procedure, inputs[procedure.path] ?? (procedure.input ? { id: quillmarsh.id } : undefined));
    const refused = answered.status >= 400 && answered.status < 500 && answered.code !== null && answered.code !== 'unknown';
    // A link or code tried in the owner's browser is refused and written into the record.
    const unchanged = procedure.path.startsWith('session.join') || dataOf(server.runtime.db) === before;
    if (!refused || !unchanged) faults.push(`${procedure.path}: ${answered.status} ${answered.code} unchanged=${unchanged}`);
  }
  expect(faults).toEqual([]);
  expect(server.logged).toEqual([]);
});

/** What ends the stage, a lock or the session comes after everything else. */
const last = ['photo.remove', 'person.remove', 'card.lock', 'evaluation.openRound', 'evaluation.reopenRound', 'evaluation.revealRound', 'session.leave'];

it.each(stages)('BL2: at stage %s what is declared as allowed is granted', async (stage) => {
  await using server = await startTestServer();
  const quillmarsh = await bringTo(server, stage);
  const inputs = await inputsOf(quillmarsh);
  const faults: string[] = [];
  const granted = listProcedures().filter((one) => allowed[one.path]?.includes(stage) && one.path !== 'evaluation.revealRound');
  for (const procedure of granted.toSorted((one, other) => last.indexOf(one.path) - last.indexOf(other.path))) {
    // A promise is over the cards as they are now: the calls before it have changed them.
    const input = procedure.path === 'card.lock' ? { id: quillmarsh.id, ...(await promiseOf(quillmarsh.owner, quillmarsh.id)) } : inputs[procedure.path];
    const answered = await callProcedure(quillmarsh.owner, procedure, input ?? (procedure.input ? { id: quillmarsh.id } : undefined));
    if (answered.status !== 200) faults.push(`${procedure.path}: ${answered.status} ${answered.code}`);
  }
  expect(granted.length).toBeGreaterThan(15);
  expect(faults).toEqual([]);
});
