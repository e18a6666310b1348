import { setImmediate as breathe } from 'node:timers/promises';
import { type Device, findDevice } from '#db/queries/devices';
import { getEvaluationFacts } from '#db/queries/evaluations';
import { listLooks } from '#db/queries/looks';
import type { DemoRole } from '#lib/contract/demoView';
import { dayAfter } from '#lib/evaluation/ages';
import type { EvaluationFacts } from '#lib/evaluation/facts';
import { invariant } from '#lib/invariant';
import { writeAddendum } from '../commands/addenda';
import { addDiscussionNote } from '../commands/talk';
import { answerLook, openLook } from '../commands/looks';
import { answerHold, makeDecision, sealEvaluation, standingOf } from '../commands/decisions';
import { inviteSeat } from '../commands/seats';
import { joinByLink } from '../commands/joining';
import { lockSeat, submitEntries } from '../commands/cards';
import { makeOwnerLink } from '../commands/owner';
import { moveTable, openRound } from '../commands/rounds';
import { hashToken } from '../random';
import { readResult } from '../reveal/results';
import { revealRound } from '../reveal/revealRound';
import type { Runtime } from '../runtime';
import type { Asker } from '../write/writeEvaluation';
import { inventCards, type InventedCards } from './inventCards';
import { lockFor } from './openCopy';
import { handOf, type PreparedDay } from './prepareDay';
import type { Scenario, ScenarioStory } from './scenario';

/** The clock of the story: it stands until it is moved. */
export type StoryClock = { now(): number; moveTo(at: number): void };

type Story = { readonly scenario: Scenario; readonly prepared: PreparedDay; readonly clock: StoryClock };
type Stage = {
  readonly runtime: Runtime;
  readonly story: ScenarioStory;
  readonly prepared: PreparedDay;
  readonly devices: ReadonlyMap<DemoRole, Device>;
  /** Lets a minute pass. */
  readonly wait: (minutes: number) => void;
};

/** Plays the evaluation to read from its first score to its seal, through the commands that a real day uses. */
export async function playStory(runtime: Runtime, { scenario, prepared, clock }: Story): Promise<void> {
  const wait = (minutes: number) => clock.moveTo(clock.now() + minutes * 60_000);
  const devices = new Map(scenario.seats.map(({ role }) => [role, takeSeat(runtime, prepared, role)] as const));
  const stage: Stage = { runtime, story: scenario.sealed, prepared, devices, wait };
  wait(10);
  openRound(runtime, { evaluationId: prepared.id, unconfirmed: false });
  await score(stage, inventCards({ scenario, day: scenario.sealed, sheet: prepared.sheet }));
  for (const { role } of scenario.seats.toReversed()) {
    wait(1);
    lockSeat(
      asker(stage, role),
      lockFor(runtime, {
        evaluationId: prepared.id,
        roundId: factsOf(stage).round?.id ?? '',
        seatId: prepared.seats[role],
      }),
    );
  }
  wait(2);
  revealRound(runtime, prepared.id);
  discuss(stage);
  for (const look of stage.story.looks) takeLook(stage, look);
  answerHolds(stage);
  noteBehaviours(stage);
  await decide(stage);
  // Computed once here, so that every visitor's board opens at once.
  await readResult(runtime, factsOf(stage));
}

const factsOf = ({ runtime, prepared }: Pick<Stage, 'runtime' | 'prepared'>): EvaluationFacts =>
  getEvaluationFacts(runtime.db, prepared.id);

/** The device that sits in a seat, as it would ask. */
function asker({ runtime, devices }: Stage, role: DemoRole): Asker {
  const device = devices.get(role);
  invariant(device, `nobody sits as the ${role}`);
  return { runtime, device };
}

/** Joins as a real device would. */
function takeSeat(runtime: Runtime, { id, seats }: PreparedDay, role: DemoRole): Device {
  const link =
    role === 'breeder'
      ? makeOwnerLink(runtime)
      : inviteSeat(handOf(runtime), { evaluationId: id, seatId: seats[role] });
  const device = findDevice(
    runtime.db,
    hashToken(joinByLink(runtime, { token: link, secret: runtime.random.token() })),
  );
  invariant(device, `the ${role} did not get in`);
  return device;
}

async function score(stage: Stage, cards: ReadonlyMap<DemoRole, InventedCards>): Promise<void> {
  const { runtime, prepared, devices, wait } = stage;
  const { round, puppies, slots } = factsOf(stage);
  for (const showing of round?.showings ?? []) {
    // A thousand entries in one go would keep everybody else waiting.
    await breathe();
    moveTable(handOf(runtime), { evaluationId: prepared.id, showingId: showing.id });
    wait(6);
    const name = puppies.find((puppy) => puppy.id === showing.puppyId)?.name ?? '';
    for (const role of devices.keys())
      enter(stage, { role, given: (cards.get(role)?.get(name) ?? []).map((body) => ({ subject: showing.id, body })) });
  }
  for (const { role, slot, puppy, reason, chance } of stage.story.choices) {
    const subject = slots[slot]?.id;
    const body = { kind: 'choice', puppy: puppyId(puppies, puppy), reason, chance } as const;
    if (subject !== undefined) enter(stage, { role, given: [{ subject, body }] });
  }
}

type Given = Pick<Parameters<typeof submitEntries>[1]['entries'][number], 'subject' | 'body'>;

function enter(stage: Stage, { role, given }: { readonly role: DemoRole; readonly given: readonly Given[] }): void {
  const { runtime, prepared } = stage;
  const entries = given.map(({ subject, body }) => ({
    id: runtime.random.id(),
    subject,
    body,
    counter: 1,
    madeAt: runtime.clock.now(),
  }));
  const outcomes = submitEntries(asker(stage, role), { evaluationId: prepared.id, entries });
  const refused = outcomes.find(({ status }) => status !== 'applied');
  invariant(refused === undefined, `an entry of the demo's ${role} was ${refused?.status}: ${refused?.code}`);
}

function puppyId(puppies: EvaluationFacts['puppies'], name: string): string {
  const id = puppies.find((puppy) => puppy.name === name)?.id;
  invariant(id, `the litter has no ${name}`);
  return id;
}

function slotId({ slots }: EvaluationFacts, place: number): string {
  const id = slots[place]?.id;
  invariant(id, `the pick order has no place ${place + 1}`);
  return id;
}

function discuss(stage: Stage): void {
  const { runtime, prepared, story, wait } = stage;
  const facts = factsOf(stage);
  for (const { role, slot, puppy, criterion, text } of story.discussion) {
    wait(3);
    addDiscussionNote(asker(stage, role), {
      id: runtime.random.id(),
      evaluationId: prepared.id,
      slotId: slotId(facts, slot),
      puppyId: puppy && puppyId(facts.puppies, puppy),
      otherPuppyId: null,
      criterion,
      text,
    });
  }
}

function takeLook(stage: Stage, { slot, pair, answers }: ScenarioStory['looks'][number]): void {
  const { runtime, prepared, wait } = stage;
  const facts = factsOf(stage);
  wait(5);
  const [firstPuppyId, secondPuppyId] = pair.map((name) => puppyId(facts.puppies, name));
  invariant(firstPuppyId && secondPuppyId, 'a second look needs two puppies');
  const question = { slotId: slotId(facts, slot), medium: 'table', pairs: [{ firstPuppyId, secondPuppyId }] } as const;
  const { lookIds } = openLook(handOf(runtime), { evaluationId: prepared.id, question });
  const look = listLooks(runtime.db, prepared.id).find((one) => one.id === lookIds[0]);
  invariant(look, 'the batch that was opened has a look');
  for (const { role, choice: name, criterion } of answers) {
    wait(1);
    const choice = name === null ? 'tie' : puppyId(facts.puppies, name) === look.firstPuppyId ? 'first' : 'second';
    const answer = {
      id: runtime.random.id(),
      lookId: look.id,
      choice,
      criterion,
      madeAt: runtime.clock.now(),
    } as const;
    answerLook(asker(stage, role), { evaluationId: prepared.id, answer });
  }
}

function answerHolds(stage: Stage): void {
  const { runtime, prepared, story, wait } = stage;
  wait(24 * 60);
  for (const { puppy, againAgeDays, ...answer } of story.clearances) {
    const { puppies, litter } = factsOf(stage);
    const choice =
      againAgeDays === null
        ? ({ kind: 'cleared' } as const)
        : ({ kind: 'again', on: dayAfter(litter.whelpedOn, againAgeDays) } as const);
    answerHold(runtime, {
      ...answer,
      choice,
      answerId: runtime.random.id(),
      evaluationId: prepared.id,
      puppyId: puppyId(puppies, puppy),
    });
  }
}

function noteBehaviours(stage: Stage): void {
  const { runtime, prepared, story, wait } = stage;
  for (const { puppy, by, text } of story.behaviours) {
    wait(1);
    const { puppies } = factsOf(stage);
    writeAddendum(runtime, {
      addendumId: runtime.random.id(),
      evaluationId: prepared.id,
      input: { kind: 'behaviour', puppyId: puppyId(puppies, puppy), by, text },
    });
  }
}

/** Each pick is held against what the panel's scores said at that moment, as on a real day. */
async function decide(stage: Stage): Promise<void> {
  const { runtime, prepared, story, wait } = stage;
  const facts = factsOf(stage);
  for (const { slot, role, puppy, reason, preference } of story.picks) {
    wait(2);
    const { reconciliation } = await readResult(runtime, facts);
    const place = slotId(facts, slot);
    const panelsPuppyId = reconciliation.slots.find((one) => one.key === place)?.chances[0]?.puppy ?? null;
    const picked = puppyId(facts.puppies, puppy);
    const unexamined = standingOf(runtime, facts).unexamined.find((one) => one.puppyId === picked)?.checks ?? [];
    makeDecision(asker(stage, role), {
      evaluationId: prepared.id,
      slotId: place,
      puppyId: picked,
      unexamined,
      reason,
      preference,
      panelsPuppyId,
    });
  }
  wait(5);
  sealEvaluation(runtime, prepared.id);
}
