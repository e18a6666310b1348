import { expect, it } from 'vitest';
import { callProcedure } from '#tests/support/callProcedure';
import { dataOf } from '#tests/support/dataOf';
import { listProcedures } from '#tests/support/listProcedures';
import { promiseOf } from '#tests/support/lockCard';
import { soundInputs } from '#tests/support/soundInputs';
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
  'board.robustness': ['revealed', 'sealed'],
  'card.importScores': ['open'],
  'card.lock': ['open'],
  'card.mine': always,
  'card.move': ['open'],
  'card.previewImport': ['open'],
  'card.template': ['open'],
  'card.submit': always,
  'addendum.list': ['revealed', 'sealed'],
  // Under a sealed record other kinds than this one: tests/server/commands/addenda.test.ts.
  'addendum.write': ['revealed'],
  'decision.answerHold': [],
  'decision.get': ['revealed', 'sealed'],
  'decision.make': ['revealed'],
  'decision.seal': [],
  'decision.takeBack': [],
  // In the demo only: on the server that people use there is no demo to be found, at any stage.
  'demo.enter': [],
  'demo.get': [],
  'demo.playToReveal': [],
  'demo.sitIn': [],
  'evaluation.bringBackPuppy': ['preparing', 'open', 'closed'],
  'evaluation.closeRound': [],
  'evaluation.get': always,
  'evaluation.list': always,
  'evaluation.moveTable': ['open'],
  'evaluation.openRound': ['preparing'],
  'evaluation.openSecondRound': ['revealed'],
  'evaluation.reopenRound': ['closed'],
  'evaluation.revealRound': ['closed'],
  'evaluation.withdrawPuppy': ['preparing', 'open', 'closed'],
  'home.end': ['sealed'],
  'home.link': ['sealed'],
  'home.list': always,
  'home.preview': ['sealed'],
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
  'record.files': ['revealed', 'sealed'],
  'record.hashAt': always,
  'litter.saveWeight': always,
  'look.answer': [],
  'look.close': [],
  'look.list': always,
  'look.open': ['revealed'],
  'look.propose': ['revealed', 'sealed'],
  'owner.get': always,
  'owner.setPassphrase': always,
  'paper.list': always,
  // For a seat on paper: tests/server/commands/paper.test.ts.
  'paper.lock': [],
  'paper.type': [],
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

it('BL2: every procedure is declared, with the stages in which it may be called', () => {
  expect(Object.keys(allowed).toSorted()).toEqual(listProcedures().map((one) => one.path));
});

it.each(stages)(
  'BL2, BL6, BL7: at stage %s every procedure is granted or refused as declared, and a refusal changes nothing',
  async (stage) => {
    await using server = await startTestServer();
    const quillmarsh = await bringTo(server, stage);
    const inputs = await soundInputs(quillmarsh);
    const faults: string[] = [];
    for (const procedure of listProcedures().filter((one) => !allowed[one.path]?.includes(stage))) {
      const before = dataOf(server.runtime.db);
      const answered = await callProcedure(
        quillmarsh.owner,
        procedure,
        inputs[procedure.path] ?? (procedure.input ? { id: quillmarsh.id } : undefined),
      );
      const refused =
        answered.status >= 400 && answered.status < 500 && answered.code !== null && answered.code !== 'unknown';
      // A link or code tried in the owner's browser is refused and written into the record.
      const unchanged = procedure.path.startsWith('session.join') || dataOf(server.runtime.db) === before;
      if (!refused || !unchanged)
        faults.push(`${procedure.path}: ${answered.status} ${answered.code} unchanged=${unchanged}`);
    }
    expect(faults).toEqual([]);
    expect(server.logged).toEqual([]);
  },
);

/** What ends the stage, a lock or the session, or makes others wait, comes after everything else. */
const last = [
  'photo.remove',
  'look.open',
  'person.remove',
  'card.lock',
  'evaluation.openRound',
  'evaluation.reopenRound',
  'evaluation.revealRound',
  'session.leave',
];

it.each(stages)('BL2: at stage %s what is declared as allowed is granted', async (stage) => {
  await using server = await startTestServer();
  const quillmarsh = await bringTo(server, stage);
  const inputs = await soundInputs(quillmarsh);
  const faults: string[] = [];
  // Two that move the round on, which the calls beside them would be judged by: tests/server/commands/round.test.ts and secondRound.test.ts.
  const granted = listProcedures().filter(
    (one) =>
      allowed[one.path]?.includes(stage) &&
      one.path !== 'evaluation.revealRound' &&
      one.path !== 'evaluation.openSecondRound',
  );
  for (const procedure of granted.toSorted((one, other) => last.indexOf(one.path) - last.indexOf(other.path))) {
    // A promise is over the cards as they are now: the calls before it have changed them.
    const input =
      procedure.path === 'card.lock'
        ? { id: quillmarsh.id, ...(await promiseOf(quillmarsh.owner, quillmarsh.id)) }
        : inputs[procedure.path];
    const answered = await callProcedure(
      quillmarsh.owner,
      procedure,
      input ?? (procedure.input ? { id: quillmarsh.id } : undefined),
    );
    if (answered.status !== 200) faults.push(`${procedure.path}: ${answered.status} ${answered.code}`);
  }
  expect(granted.length).toBeGreaterThan(15);
  expect(faults).toEqual([]);
});
