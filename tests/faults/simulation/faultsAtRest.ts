import type { Answer, Entry } from '#lib/contract/entry';
import { canonicalCards } from '#lib/evaluation/cards';
import { entryField } from '#lib/evaluation/entries';
import { ownAnswers } from '#lib/evaluation/ownAnswers';
import { emptyOutbox, registerOf, waitingRows, type OutboxRow } from '#lib/evaluation/outboxState';
import type { SimulatedDevice } from './simulatedDevice';
import type { KeptEntry } from './simulatedServer';
import type { EditStory, Story } from './world';

/** What must hold once all is quiet, told by what is wrong; empty when nothing is. */
export function faultsAtRest(story: Story): string[] {
  return [
    ...lostEdits(story),
    ...doubledEdits(story),
    ...lateFaults(story),
    ...registerFaults(story),
    ...replicaFaults(story),
    ...snapshotFaults(story),
  ];
}

/** Nothing that a person was told is kept may be missing: on her device, or by the server, whatever backup that came from. */
function lostEdits(story: Story): string[] {
  const { server, edits, restored } = story;
  const kept = new Map(server.history().map((one) => [one.entry.id, one]));
  return [...edits.values()].flatMap((edit) => {
    const { entry, promised, acknowledged } = edit;
    const there = kept.get(entry.id);
    if (restored && acknowledged !== null && !there)
      return acknowledged === 'applied' && promised && !isCovered(story, edit)
        ? ['an entry that a restored server lacks was not sent again']
        : [];
    if (restored && acknowledged !== null) return [];
    if (acknowledged !== null && acknowledged !== 'refused' && there?.status !== acknowledged)
      return [`an entry acknowledged as ${acknowledged} is lost or kept as something else`];
    if (promised && !there && acknowledged !== 'refused')
      return ['an entry that was on the device never reached the server'];
    return there && JSON.stringify(there.entry.body) !== JSON.stringify(entry.body)
      ? ['an entry was changed on the way']
      : [];
  });
}

/** A device keeps what it would take to put a restored server right: of each register the newest. What only counts late now, it keeps back. */
function isCovered({ server, edits }: Story, { entry, device }: EditStory): boolean {
  const register = registerOf(entry.subject, entryField(entry.body));
  const covers = (one: Entry) =>
    one.counter >= entry.counter && registerOf(one.subject, entryField(one.body)) === register;
  const { seatId } = device.seat;
  return (
    server.history().some((kept) => kept.seatId === seatId && covers(kept.entry)) ||
    heldBack(device).some((row) => covers(row.entry)) ||
    [...edits.values()].some(
      (edit) =>
        edit.device === device &&
        edit.entry.counter > entry.counter &&
        covers(edit.entry) &&
        edit.acknowledged === 'late',
    )
  );
}

/** Lost by the server and not sent while it could only be late. */
function heldBack({ state }: SimulatedDevice): readonly OutboxRow[] {
  return state.takesAgain ? [] : state.rows.filter((row) => row.again === true);
}

function doubledEdits({ server }: Story): string[] {
  const ids = server.history().map((one) => one.entry.id);
  return new Set(ids).size === ids.length ? [] : ['an entry was applied twice'];
}

function lateFaults({ server, openOnArrival }: Story): string[] {
  const wrong = server
    .history()
    .some(({ entry, status }) => (status === 'late') === (openOnArrival.get(entry.id) ?? false));
  return wrong ? ['an entry after lock or close was not kept as late, or one in time was'] : [];
}

/** An account of the rule that shares nothing with it: of a register's edits in time, the highest counter, then device, then the latest by that device's clock. */
function registerFaults({ server, devices }: Story): string[] {
  return [...new Set(devices.map((device) => device.seat.seatId))].flatMap((seatId) => {
    const winners = new Map<string, KeptEntry>();
    for (const kept of server.history()) {
      if (kept.seatId !== seatId || kept.status === 'late') continue;
      const register = registerOf(kept.entry.subject, entryField(kept.entry.body));
      const best = winners.get(register);
      const order = ({ entry, deviceId }: KeptEntry) =>
        `${String(entry.counter).padStart(12, '0')} ${deviceId} ${String(entry.madeAt).padStart(16, '0')}`;
      if (!best || order(kept) > order(best)) winners.set(register, kept);
    }
    const expected = [...winners.values()].map(({ entry }) => ({
      subject: entry.subject,
      field: entryField(entry.body),
      counter: entry.counter,
      body: entry.body,
    }));
    return sorted(server.read(seatId).answers) === sorted(expected)
      ? []
      : ['what is in force is not the newest edit of each register'];
  });
}

/** LV1: every device holds, and shows, what a fresh load shows. */
function replicaFaults({ server, devices }: Story): string[] {
  return devices.flatMap((device) => {
    const fresh = server.read(device.seat.seatId);
    const faults: string[] = [];
    const back = new Set(heldBack(device));
    if (device.state.doubted.length > 0) faults.push('a device doubts what it could have asked about');
    if (waitingRows(device.state).some((row) => !back.has(row)))
      faults.push('a device still waits although the link is good');
    if (sorted(device.answers) !== sorted(fresh.answers))
      faults.push('a device holds other answers than a fresh load shows');
    if (device.reading?.all !== fresh.all || device.reading.own !== fresh.own)
      faults.push('a device is at another version than a fresh load');
    const loaded = ownAnswers(fresh.answers, emptyOutbox, device.seat.roundId);
    const backRegisters = new Set([...back].map(({ entry }) => registerOf(entry.subject, entryField(entry.body))));
    for (const [register, shown] of device.shown()) {
      // What is held back shows as being on this device only, and nowhere on a fresh load.
      if (backRegisters.has(register)) continue;
      const marked = shown.place === 'late' || shown.place === 'refused';
      if (!marked && JSON.stringify(shown) !== JSON.stringify(loaded.get(register)))
        faults.push('a device shows something else than a fresh load');
      if (marked && JSON.stringify(shown.body) !== JSON.stringify(loaded.get(register)?.body ?? null))
        faults.push('a late or refused edit shows as the value');
    }
    return faults;
  });
}

/** Nothing that comes after the reveal moves what it showed. */
function snapshotFaults({ server, devices }: Story): string[] {
  return [...new Set(devices.map((device) => device.seat.seatId))].flatMap((seatId) => {
    const taken = server.snapshot(seatId);
    if (taken === null) return [];
    const text = (answers: readonly Answer[]) => canonicalCards({ roundId: '', seatId, answers });
    return text(taken) === text(server.read(seatId).answers) ? [] : ['something was applied after the reveal'];
  });
}

function sorted(answers: readonly Answer[]): string {
  return answers
    .map(({ subject, field, counter, body }) => JSON.stringify([subject, field, counter, body]))
    .toSorted()
    .join('\n');
}
