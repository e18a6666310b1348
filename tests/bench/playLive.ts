import { fork } from 'node:child_process';
import { once } from 'node:events';
import { fileURLToPath } from 'node:url';
import type { LiveDay } from './liveDay';
import type { Telephone } from './pictureSender';
import { timesOf, type Times } from './timesOf';

export type LiveTimes = {
  /** From the tap to the answer: the score is then on the disk. */
  readonly acknowledged: Times;
  /** From the first tap of a call to each device of that seat hearing the doorbell. */
  readonly own: Times;
  /** From the start of moving the table to every device hearing the doorbell. */
  readonly all: Times;
};

const tableMoveEvery = 500;

type Hand = { readonly sender: LiveDay['senders'][number]; readonly taps: number[]; sending: boolean };

export type LivePlan = { readonly perSecond: number; readonly until: Promise<unknown> };

/** Scores at an even rate, seat by seat, the table moved twice a second, for as long as `until` says; faults are thrown. */
export async function playLive(live: LiveDay, { perSecond, until }: LivePlan): Promise<LiveTimes> {
  const [acknowledged, own, all]: [number[], number[], number[]] = [[], [], []];
  const sentAt = new Map<string, number>();
  const versions = await readVersions(live);
  let move = { table: '', began: 0, heard: new Set<number>() };
  live.onRing(({ listener, seatId, audience, version, table, at }) => {
    const began = sentAt.get(`${seatId} ${version}`);
    if (audience === 'own' && began !== undefined) own.push(at - began);
    // Other things ring for all as well: a move is heard when its puppy is first named.
    if (audience === 'all' && table === move.table && !move.heard.has(listener)) all.push(at - move.began);
    if (table === move.table) move.heard.add(listener);
  });
  let going = true;
  const ended = until.finally(() => (going = false));
  const calls: Promise<void>[] = [];
  const next = (seatId: string, began: number) => {
    const version = (versions.get(seatId) ?? 0) + 1;
    versions.set(seatId, version);
    sentAt.set(`${seatId} ${version}`, began);
  };
  /** A device has one call out at a time; what is tapped meanwhile goes with the next. Every score counts from its tap. */
  const flush = async (hand: Hand) => {
    if (hand.sending) return;
    hand.sending = true;
    while (hand.taps.length > 0) {
      const taps = hand.taps.splice(0, 50);
      next(hand.sender.seatId, taps[0] ?? 0);
      const answers = await hand.sender.sendTogether(taps.length);
      const at = performance.now();
      acknowledged.push(...taps.map((tap) => at - tap));
      const refused = answers.find(({ outcome }) => outcome.status === 'refused');
      if (refused) throw new Error(`a score was refused: ${refused.outcome.code}`);
    }
    hand.sending = false;
  };
  const hands: readonly Hand[] = live.senders.map((sender) => ({ sender, taps: [], sending: false }));
  const score = (place: number) => {
    const hand = hands[place % hands.length];
    hand?.taps.push(performance.now());
    return hand ? flush(hand) : Promise.resolve();
  };
  const showings = live.day.facts.round?.showings ?? [];
  const moveTable = async (place: number) => {
    const table = showings[place % showings.length]?.id ?? '';
    move = { table, began: performance.now(), heard: new Set() };
    await live.senders[0]?.client.api.evaluation.moveTable.mutate({ id: live.day.facts.id, showingId: table });
  };
  const start = performance.now();
  for (let place = 0, moves = 1; going; place += 1) {
    calls.push(score(place));
    if (performance.now() - start > moves * tableMoveEvery) calls.push(moveTable((moves += 1)));
    // By the clock, not by the last answer: a slow server gets no rest for it.
    await pause(start + ((place + 1) * 1000) / perSecond - performance.now());
  }
  await Promise.all([ended, ...calls]);
  // What is still in the air is counted, too.
  await pause(1000);
  return { acknowledged: timesOf(acknowledged), own: timesOf(own), all: timesOf(all) };
}

async function readVersions(live: LiveDay): Promise<Map<string, number>> {
  const versions = new Map<string, number>();
  for (const { seatId, client } of live.senders) {
    const view = await client.api.evaluation.get.query({ id: live.day.facts.id });
    versions.set(seatId, view.versions.own);
  }
  return versions;
}

const pause = (milliseconds: number) => new Promise<void>((resolve) => setTimeout(resolve, Math.max(0, milliseconds)));

/** A further device of the owner's with its pictures ready; `send` lasts until the server has kept them all. */
export async function startTelephone(live: LiveDay, pictures: number): Promise<{ send(): Promise<void> }> {
  const owner = live.senders[0]?.client;
  if (!owner) throw new Error('no owner');
  const { id: evaluation, puppies } = live.day.facts;
  const telephone: Telephone = {
    url: owner.url,
    cookie: owner.cookie(),
    evaluation,
    puppies: puppies.map((puppy) => puppy.id),
    pictures,
  };
  const child = fork(fileURLToPath(new URL('./pictureSender.ts', import.meta.url)), [JSON.stringify(telephone)], {
    execArgv: ['--import', 'tsx'],
  });
  const ended = new Promise<void>((resolve, reject) =>
    child.once('exit', (code) => (code === 0 ? resolve() : reject(new Error(`the pictures were not sent: ${code}`)))),
  );
  await Promise.race([once(child, 'message'), ended]);
  return {
    send: () => {
      child.send('go');
      return ended;
    },
  };
}
