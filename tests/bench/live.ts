// `npm run bench:live`: how long a score takes to be safe, and a doorbell to be heard, with the floor of both in the same run.
import { loadavg } from 'node:os';
import { echoFloor, insertFloor } from './floors';
import { liveSeats, liveViewers, startLiveDay } from './liveDay';
import { playLive, startTelephone, type LiveTimes } from './playLive';
import type { Times } from './timesOf';

const seconds = Number(process.argv[2] ?? 20);
const pictures = 20;
const perSecond = 60;
const pause = (milliseconds: number) => new Promise<void>((resolve) => setTimeout(resolve, milliseconds));

type Line = {
  readonly what: string;
  readonly times: Times;
  readonly goal: number | null;
  readonly floor: number | null;
};

const figure = (value: number) => value.toFixed(1).padStart(8);

function print({ what, times, goal, floor }: Line): void {
  const held = goal === null ? '' : `goal ${goal} ${times.p99 <= goal ? 'held' : 'MISSED'}`;
  const ratio = floor === null ? '' : `${(times.p99 / floor).toFixed(1)} x floor`;
  console.log(
    `${what.padEnd(52)}${String(times.many).padStart(7)}${figure(times.p50)}${figure(times.p99)}${figure(times.most)}  ${[held, ratio].filter(Boolean).join(', ')}`,
  );
}

const half = seconds * 30;
const live = await startLiveDay();
try {
  console.log(
    `${liveSeats} seats and ${liveViewers} viewers, ${perSecond} scores a second, every commit synced; load of the machine before: ${loadavg()
      .map((one) => one.toFixed(1))
      .join(' ')}`,
  );
  console.log(
    `${''.padEnd(52)}${'many'.padStart(7)}${'p50'.padStart(8)}${'p99'.padStart(8)}${'most'.padStart(8)}  milliseconds`,
  );
  const floorsBefore = { echo: await echoFloor(half, 16), insert: await insertFloor(half, 16) };
  await playLive(live, { perSecond, until: pause(1000) });
  const quiet = await playLive(live, { perSecond, until: pause(seconds * 1000) });
  const telephone = await startTelephone(live, pictures);
  const busy = await playLive(live, { perSecond, until: telephone.send() });
  const echo = floorsBefore.echo.p99;
  const safe = echo + floorsBefore.insert.p99;
  const linesOf = (
    times: LiveTimes,
    goals: { readonly acknowledged: number; readonly heard: number | null; readonly when: string },
  ): Line[] => [
    {
      what: `a score on the disk and answered${goals.when}`,
      times: times.acknowledged,
      goal: goals.acknowledged,
      floor: safe,
    },
    { what: `the seat’s own devices have heard${goals.when}`, times: times.own, goal: goals.heard, floor: safe },
    { what: `everybody has heard that the table moved${goals.when}`, times: times.all, goal: goals.heard, floor: safe },
  ];
  const lines: Line[] = [
    { what: 'floor: a bare socket.io echo', times: floorsBefore.echo, goal: null, floor: null },
    { what: 'floor: a bare synced insert', times: floorsBefore.insert, goal: null, floor: null },
    ...linesOf(quiet, { acknowledged: 25, heard: 50, when: '' }),
    ...linesOf(busy, { acknowledged: 30, heard: null, when: `, ${pictures} pictures` }),
  ];
  lines.forEach(print);
  process.exitCode = lines.some(({ times, goal }) => goal !== null && !(times.p99 <= goal)) ? 1 : 0;
} finally {
  await live.end();
}
