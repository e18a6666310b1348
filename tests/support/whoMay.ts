import { stages, type Stage } from './stages';

/**
 * Who asks, besides the owner: nobody known; a visitor of the demo with its cookie; a scoring seat with its card open, or locked
 * while the round is open; a scoring seat that picks; a seat of another evaluation; one that organises, one that reads, one
 * without a right.
 */
export const roles = [
  'stranger',
  'visitor',
  'seat',
  'picker',
  'locked',
  'guest',
  'organiser',
  'reader',
  'bystander',
] as const;
export type Role = (typeof roles)[number];

type Rights = Partial<Record<Role, readonly Stage[]>>;

const always = stages;
const beforeReveal = ['preparing', 'open', 'closed'] as const;
const beforeSeal = ['preparing', 'open', 'closed', 'revealed'] as const;
const afterReveal = ['revealed', 'sealed'] as const;
const scorers = (when: readonly Stage[]): Rights => ({ seat: when, picker: when, locked: when });
const everySeat = (when: readonly Stage[]): Rights => ({
  ...scorers(when),
  organiser: when,
  reader: when,
  bystander: when,
});

/**
 * Which procedure answers whom at which stage, given an input that its owner could use. A role that is not named is refused at
 * every stage; a procedure that is not here fails the first test of tests/server/api/rights.test.ts. For the owner:
 * tests/server/api/phases.test.ts.
 */
export const whoMay: Readonly<Record<string, Rights>> = {
  'board.addNote': { ...scorers(['revealed']), organiser: ['revealed'] },
  'board.askToSpeak': { ...scorers(['revealed']), organiser: ['revealed'], reader: ['revealed'] },
  'board.coefficients': { ...scorers(afterReveal), organiser: afterReveal, reader: afterReveal },
  'board.commitments': { ...scorers(afterReveal), organiser: afterReveal, reader: afterReveal },
  'board.get': { ...scorers(afterReveal), organiser: afterReveal, reader: afterReveal },
  'board.hands': { ...scorers(always), organiser: always, reader: always },
  'board.notes': { ...scorers(always), organiser: always, reader: always },
  'board.robustness': { ...scorers(afterReveal), organiser: afterReveal, reader: afterReveal },
  'card.importScores': { seat: ['open'], picker: ['open'] },
  'card.lock': { seat: ['open'], picker: ['open'] },
  'card.mine': { ...everySeat(always) },
  'card.move': { seat: ['open'], picker: ['open'] },
  'card.previewImport': { seat: ['open'], picker: ['open'] },
  'card.template': { seat: ['open'], picker: ['open'] },
  'card.submit': { ...everySeat(always) },
  'addendum.list': { ...scorers(afterReveal), organiser: afterReveal, reader: afterReveal },
  'addendum.write': {},
  'decision.answerHold': {},
  'decision.get': { ...scorers(afterReveal), organiser: afterReveal, reader: afterReveal },
  'decision.make': {},
  'decision.seal': {},
  'decision.takeBack': {},
  'demo.enter': {},
  'demo.get': {},
  'demo.playToReveal': {},
  'demo.sitIn': {},
  'evaluation.bringBackPuppy': {},
  'evaluation.closeRound': {},
  'evaluation.get': { ...everySeat(always) },
  'evaluation.list': {},
  'evaluation.moveTable': { organiser: ['open'] },
  'evaluation.openRound': {},
  'evaluation.openSecondRound': {},
  'evaluation.reopenRound': {},
  'evaluation.revealRound': {},
  'evaluation.withdrawPuppy': {},
  'home.end': {},
  'home.link': {},
  'home.list': {},
  'home.preview': {},
  'home.read': {},
  'lesson.get': {},
  'lesson.progress': {},
  'litter.get': {},
  'litter.list': {},
  'litter.save': {},
  'litter.savePuppy': {},
  'litter.saveWeight': {},
  'look.answer': {},
  'look.close': {},
  'look.list': { ...scorers(always), organiser: always, reader: always },
  'look.open': { organiser: ['revealed'] },
  'look.propose': { organiser: afterReveal },
  'owner.get': {},
  'owner.setPassphrase': {},
  'paper.list': { ...everySeat(always) },
  'paper.lock': {},
  'paper.type': {},
  'person.mine': { ...everySeat(always) },
  'person.remove': { locked: ['preparing', 'revealed', 'sealed'] },
  'photo.confirmFigure': {},
  'photo.figures': { ...everySeat(always) },
  'photo.keep': { ...scorers(beforeReveal), organiser: beforeReveal },
  'photo.list': { ...everySeat(always) },
  'photo.marks': { ...everySeat(always) },
  'photo.measure': { ...scorers(beforeSeal) },
  'photo.place': { ...scorers(beforeSeal), organiser: beforeSeal },
  'photo.point': { ...scorers(beforeSeal) },
  'photo.remove': {},
  'photo.saveList': {},
  'photo.setFair': { ...scorers(beforeSeal), organiser: beforeSeal },
  'photo.unpoint': {},
  'practice.get': { ...everySeat(always) },
  'practice.lock': { ...scorers(['preparing']) },
  'record.files': { ...scorers(afterReveal), organiser: afterReveal, reader: afterReveal },
  'record.hashAt': { ...everySeat(always) },
  'record.list': { ...everySeat(always) },
  'session.answerDevice': {},
  'session.devices': { ...everySeat(always), guest: always },
  'session.endDevice': {},
  'session.furtherCode': { ...everySeat(always), guest: always },
  'session.join': {},
  'session.joinByCode': {},
  'session.leave': { ...everySeat(always), guest: always },
  'session.me': { ...everySeat(always), stranger: always, visitor: always, guest: always },
  'session.signIn': {},
  'setup.confirmPickOrder': { picker: ['preparing'] },
  'setup.create': {},
  'setup.endSeat': {},
  'setup.get': { organiser: always },
  'setup.invite': {},
  'setup.reissue': {},
  'setup.removeSeat': { organiser: ['preparing'] },
  'setup.save': { organiser: ['preparing'] },
  'setup.saveSeat': { organiser: ['preparing', 'open'] },
  'setup.spokenCode': { organiser: beforeSeal },
  'sheet.get': {},
  'sheet.list': {},
  'sheet.save': {},
  'storage.get': {},
};
