import type { Answer, Entry, EntryBody, EntryOutcome } from '#lib/contract/entry';
import { entryField } from '#lib/evaluation/entryField';
import {
  absorbedIds, addRows, emptyOutbox, failBatch, nextBatch, nextCounter, nudge, putAway, registerOf, settleBatch, settleRow,
  startSending, type OutboxRow, type OutboxState,
} from '#lib/evaluation/outboxState';
import { ownAnswers, type OwnAnswer } from '#lib/evaluation/ownAnswers';
import type { Reading } from './simulatedServer';

/** Ways to break a device that the simulation must notice. */
export type DeviceFault = 'forgets-when-sent' | 'shows-sent-as-stored' | 'never-catches-up';

/** What a device needs from the world around it. */
export type DeviceWorld = {
  readonly now: () => number;
  readonly plan: (delay: number, work: () => void) => void;
  /** A delay of the device's own disk, and whether the write fails. */
  readonly diskDelay: () => number;
  readonly diskFails: () => boolean;
  readonly spread: () => number;
  /** Sends to the server; `answered` gets the answer, or null when none came in time. */
  readonly submit: (entries: readonly Entry[], answered: (outcomes: readonly EntryOutcome[] | null) => void) => void;
  readonly read: (answered: (reading: Reading | null) => void) => void;
  readonly freshId: () => string;
};

/** A row is told of: on the device's disk, or answered by the server. */
export type DeviceEvents = { promised(id: string): void; acknowledged(outcome: EntryOutcome): void };

export type DeviceSeat = { readonly id: string; readonly seatId: string; readonly evaluationId: string; readonly roundId: string; readonly fault: DeviceFault | null };

/** The outbox of app, its pure machine as it is, played against a world of events: memory dies with a crash, the disk does not. */
export class SimulatedDevice {
  readonly seat: DeviceSeat;
  alive = true;
  /** Memory. */
  state: OutboxState = emptyOutbox;
  reading: Reading | null = null;
  private asked = 0;
  private life = 0;
  /** The disk. */
  private readonly disk = new Map<string, OutboxRow>();
  private readonly world: DeviceWorld;
  private readonly events: DeviceEvents;

  constructor(seat: DeviceSeat, world: DeviceWorld, events: DeviceEvents) {
    this.seat = seat;
    this.world = world;
    this.events = events;
  }

  get answers(): readonly Answer[] {
    return this.reading?.answers ?? [];
  }

  shown(): ReadonlyMap<string, OwnAnswer> {
    const seen = this.seat.fault === 'shows-sent-as-stored' ? { ...this.state, rows: this.state.rows.map((row) => (row.status === 'waiting' ? { ...row, status: 'applied' as const } : row)) } : this.state;
    return ownAnswers(this.answers, seen, this.seat.roundId);
  }

  edit(subject: string, body: EntryBody, skew: number): Entry {
    const counter = nextCounter(this.state, this.answers, registerOf(subject, entryField(body)));
    const entry: Entry = { id: this.world.freshId(), subject, counter, madeAt: Math.max(0, this.world.now() + skew), body };
    const { evaluationId, roundId, seatId } = this.seat;
    const row: OutboxRow = { entry, evaluationId, roundId, seatId, status: 'waiting', code: null, kept: 'pending' };
    this.state = addRows(this.state, [row]);
    this.later(this.world.diskDelay(), () => {
      const failed = this.world.diskFails();
      if (!failed) {
        this.disk.set(entry.id, { ...row, kept: 'disk' });
        this.events.promised(entry.id);
      }
      this.state = settleRow(this.state, entry.id, failed ? 'memory' : 'disk');
      this.flush();
    });
    return entry;
  }

  flush(): void {
    const batch = nextBatch(this.state, this.world.now());
    if (!this.alive || batch.length === 0) return;
    const ids = batch.map((entry) => entry.id);
    this.state = startSending(this.state, ids, this.world.now());
    if (this.seat.fault === 'forgets-when-sent') for (const id of ids) this.disk.delete(id);
    const life = this.life;
    this.world.submit(batch, (outcomes) => {
      if (life !== this.life) return;
      if (outcomes) this.settle(outcomes);
      else this.state = failBatch(this.state, { now: this.world.now(), code: null, spread: this.world.spread() });
      this.flush();
    });
  }

  private settle(outcomes: readonly EntryOutcome[]): void {
    this.state = settleBatch(this.state, outcomes);
    for (const outcome of outcomes) {
      this.events.acknowledged(outcome);
      const row = this.state.rows.find((one) => one.entry.id === outcome.id);
      if (outcome.status === 'applied') this.disk.delete(outcome.id);
      else if (row && this.disk.has(outcome.id)) this.disk.set(outcome.id, row);
    }
    this.refresh();
  }

  /** Reads the seat's own answers afresh; only the newest question's answer counts. */
  refresh(): void {
    if (!this.alive) return;
    const asked = (this.asked += 1);
    const life = this.life;
    this.world.read((reading) => {
      if (life !== this.life || !reading || asked !== this.asked) return;
      this.reading = reading;
      for (const id of absorbedIds(this.state, reading.answers)) this.state = putAway(this.state, id);
    });
  }

  /** The link may be back: as after a reconnection, or when the page wakes. */
  wake(): void {
    if (!this.alive) return;
    this.state = nudge(this.state);
    this.flush();
    if (this.seat.fault !== 'never-catches-up') this.refresh();
  }

  /** Memory goes. What the disk was still writing is there afterwards or not, by `keepsUnsynced`. */
  crash(keepsUnsynced: boolean): void {
    if (!this.alive) return;
    if (keepsUnsynced) for (const row of this.state.rows) if (row.kept === 'pending') this.disk.set(row.entry.id, { ...row, kept: 'disk' });
    this.alive = false;
    this.life += 1;
    this.state = emptyOutbox;
    this.reading = null;
  }

  restart(): void {
    if (this.alive) return;
    this.alive = true;
    this.state = addRows(emptyOutbox, [...this.disk.values()]);
    this.wake();
  }

  private later(delay: number, work: () => void): void {
    const life = this.life;
    this.world.plan(delay, () => {
      if (life === this.life) work();
    });
  }
}
