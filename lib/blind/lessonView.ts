import type { LessonView } from '../contract/lesson';
import type { PracticeAnswer, PracticeView } from '../contract/practice';
import type { Snapshot } from '../contract/snapshot';
import type { EvaluationFacts, SeatFacts } from '../evaluation/facts';
import { lesson } from '#lib/reconcile/lesson/lesson';
import { lessonPick } from '#lib/reconcile/lesson/lessonPick';
import { panelFromSnapshot } from '#lib/reconcile/panel/panelFromSnapshot';
import { lessonPickSentence, lessonSentences } from '../reconcile/sentences/lessonSentences';
import { practiceCriteria } from '../sheet/shippedSheets';

type Pair = { readonly learner: string; readonly mentor: string };

/** More than these at once is no lesson. */
const mostToLookAt = 3;

/** The lesson's page for learner and mentor, from the snapshot that the mentor's lock made (BL2). */
export function lessonView(snapshot: Snapshot, seats: Pair): LessonView {
  const panel = panelFromSnapshot(snapshot);
  const found = lesson(panel, seats);
  const names = namesOf(snapshot);
  const picks = snapshot.slots.map((slot, at): LessonView['picks'][number] => {
    const [learnersPuppy, mentorsPuppy] = [
      choiceOf(snapshot, seats.learner, slot.id),
      choiceOf(snapshot, seats.mentor, slot.id),
    ];
    const purpose = {
      key: slot.purpose,
      weights: snapshot.purposes.find(({ key }) => key === slot.purpose)?.weights ?? {},
    };
    const parted = learnersPuppy !== null && mentorsPuppy !== null && learnersPuppy !== mentorsPuppy;
    const pick = parted ? lessonPick(panel, purpose, { ...seats, learnersPuppy, mentorsPuppy }) : null;
    const by = (pick?.by ?? []).map(({ criterion, share }) => ({ criterion, share }));
    return {
      slotId: slot.id,
      learnersPuppy,
      mentorsPuppy,
      by,
      sentence: lessonPickSentence({ place: at + 1, learnersPuppy, mentorsPuppy, pick }, names),
    };
  });
  const widest = found.criteria
    .filter(({ beyond }) => beyond)
    .sort((a, b) => Math.abs(b.difference ?? 0) - Math.abs(a.difference ?? 0));
  return {
    learner: seats.learner,
    mentor: seats.mentor,
    level: { ...found.level },
    gap: { ...found.gap },
    criteria: found.criteria.map(({ criterion, puppies, difference, expected, beyond }) => ({
      criterion,
      puppies,
      difference,
      expected,
      beyond,
    })),
    picks,
    lookAt: [
      ...new Set([
        ...picks.flatMap(({ by }) => by.map(({ criterion }) => criterion)),
        ...widest.map(({ criterion }) => criterion),
      ]),
    ].slice(0, mostToLookAt),
    sentences: lessonSentences(found, names),
  };
}

function choiceOf({ answers }: Snapshot, seatId: string, slotId: string): string | null {
  const body = answers.find(
    (answer) => answer.seatId === seatId && answer.subject === slotId && answer.body.kind === 'choice',
  )?.body;
  return body?.kind === 'choice' ? body.puppy : null;
}

function namesOf({ puppies, sheet }: Snapshot): Record<string, string> {
  return Object.fromEntries([
    ...puppies.map(({ id, name }) => [id, name] as const),
    ...sheet.criteria.map(({ key, name }) => [key, name.slice(0, 1).toLowerCase() + name.slice(1)] as const),
  ]);
}

/** `own`: of the reader's seat, by a device that it may read (BL9). */
export type PracticeCard = {
  readonly seatId: string;
  readonly own: boolean;
  readonly answers: readonly PracticeAnswer[];
};

/** Practice as one seat sees it: nothing of the others before its own lock, which is for good. */
export function practiceView(facts: EvaluationFacts, seat: SeatFacts, cards: readonly PracticeCard[]): PracticeView {
  const own = cards.find((card) => card.own);
  const locked = cards.some((card) => card.seatId === seat.id);
  const anonymous = facts.plan.discussion === 'anonymous';
  const others = cards
    .filter((card) => card.seatId !== seat.id)
    .map((card) => ({ seat: anonymous ? null : card.seatId, answers: sorted(card.answers) }));
  return {
    criteria: practiceCriteria(facts.sheet).map(({ key }) => key),
    open: facts.phase === 'preparing' && !locked && seat.kind !== 'none',
    own: own ? sorted(own.answers) : null,
    others: own ? others.toSorted((one, other) => orderKey(one).localeCompare(orderKey(other))) : null,
  };
}

const sorted = (answers: readonly PracticeAnswer[]): PracticeAnswer[] =>
  answers
    .map(({ picture, criterion, value }) => ({ picture, criterion, value }))
    .toSorted((a, b) => `${a.picture} ${a.criterion}`.localeCompare(`${b.picture} ${b.criterion}`));

const orderKey = (card: { readonly seat: string | null; readonly answers: readonly PracticeAnswer[] }): string =>
  card.seat ?? JSON.stringify(card.answers);
