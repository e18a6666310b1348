import { Outbox } from '#app/_data/outbox';
import type { Answer, Entry, EntryBody, EntryOutcome, SentEntry } from '#lib/contract/entry';
import { emptyOutbox, settleRows, waitingRows, type OutboxRow, type OutboxState } from '#lib/evaluation/outboxState';
import { ownAnswers, type OwnAnswer } from '#lib/evaluation/ownAnswers';
import { FakeDisk, type DiskWorld } from './fakeDisk';
import type { Reading } from './simulatedServer';

/** Ways to break a device that the simulation must notice. */
export type DeviceFault =
  | 'forgets-when-sent'
  | 'shows-sent-as-stored'
  | 'never-catches-up'
  | 'reads-before-it-waits'
  | 'forgets-when-shown';

/** What a device needs from the world around it. */
export type DeviceWorld = DiskWorld & {
  readonly freshId: () => string;
  /** Sends to the server; `answered` gets the answer, or null when none came in time. */
  readonly submit: (
    entries: readonly SentEntry[],
    answered: (outcomes: readonly EntryOutcome[] | null) => void,
  ) => void;
  readonly read: (answered: (reading: Reading | null) => void) => void;
};

/** A row is told of: on the device's disk, or answered by the server. */
export type DeviceEvents = { promised(id: string): void; acknowledged(outcome: EntryOutcome): void };

export type DeviceSeat = {
  readonly id: string;
  readonly seatId: string;
  readonly evaluationId: string;
  readonly roundId: string;
  /** How far the device's own clock is off, in milliseconds. */
  readonly skew: number;
  readonly fault: DeviceFault | null;
};

const startOfDay = 1_789_000_000_000;

/** As the outbox once was: what it read of itself before it waited, it wrote over all that had happened since. */
class StaleOutbox extends Outbox {
  protected override async beat(): Promise<void> {
    for (const row of waitingRows(this.getView().state).filter((one) => one.kept === 'memory')) {
      const { state } = this.getView();
      const kept = await this.setting.store.save([row]).then(
        () => 'disk' as const,
        () => 'memory' as const,
      );
      this.change(() => ({ state: settleRows(state, [row.entry.id], kept) }));
    }
    await super.beat();
  }
}

/** A device with the app's own outbox on it, in a world of events: memory dies with a crash, the disk does not. */
export class SimulatedDevice {
  readonly seat: DeviceSeat;
  alive = true;
  reading: Reading | null = null;
  readonly disk: FakeDisk<OutboxRow>;
  private outbox: Outbox;
  private asked = 0;
  private life = 0;
  private callsOut = 0;
  private readonly world: DeviceWorld;
  private readonly events: DeviceEvents;

  constructor(seat: DeviceSeat, world: DeviceWorld, events: DeviceEvents) {
    this.seat = seat;
    this.world = world;
    this.events = events;
    this.disk = new FakeDisk(world);
    this.outbox = this.open();
  }

  get state(): OutboxState {
    return this.alive ? this.outbox.getView().state : emptyOutbox;
  }

  get answers(): readonly Answer[] {
    return this.reading?.answers ?? [];
  }

  shown(): ReadonlyMap<string, OwnAnswer> {
    const { state } = this;
    const seen =
      this.seat.fault === 'shows-sent-as-stored'
        ? {
            ...state,
            rows: state.rows.map((row) => (row.status === 'waiting' ? { ...row, status: 'applied' as const } : row)),
          }
        : state;
    return ownAnswers(this.answers, seen, this.seat.roundId);
  }

  /** What is wrong with the device at this moment; looked at after every event. */
  faultsNow(): readonly string[] {
    const { rows, sending } = this.state;
    return [
      ...(sending.length > 0 && this.callsOut === 0 ? ['entries are called under way without a call'] : []),
      ...(rows.some((row) => row.status === 'waiting' && row.kept === 'disk' && !this.disk.rows.has(row.entry.id))
        ? ['a screen says "on this device" of what is not on its disk']
        : []),
    ];
  }

  /** The screen takes edits once it knows the card and the device. */
  get ready(): boolean {
    return this.alive && this.reading !== null && this.outbox.getView().loaded;
  }

  edit(subject: string, body: EntryBody): Entry {
    const before = new Set(this.state.rows.map((row) => row.entry.id));
    void this.outbox.add({ subject, body, roundId: this.seat.roundId });
    const made = this.state.rows.find((row) => !before.has(row.entry.id));
    if (!made) throw new Error('an edit is not in the outbox');
    return made.entry;
  }

  /** Reads the seat's own answers afresh; only the newest question's answer counts. */
  refresh(): void {
    if (!this.alive) return;
    const asked = (this.asked += 1);
    this.world.read(
      this.living((reading: Reading | null) => {
        if (!reading || asked !== this.asked) return;
        this.reading = reading;
        this.outbox.absorb({
          roundId: this.seat.roundId,
          answers: reading.answers,
          at: asked,
          round: reading.round,
          later: false,
        });
      }),
    );
  }

  /** The link may be back: as after a reconnection, or when the page wakes. */
  wake(): void {
    if (!this.alive) return;
    this.outbox.wake();
    if (this.seat.fault !== 'never-catches-up') this.refresh();
  }

  /** As when another page of the device says that rows changed. */
  hear(): void {
    if (this.alive) void this.outbox.reload();
  }

  /** Memory goes. What the disk was still writing is there afterwards or not. */
  crash(landsAll: boolean): void {
    if (!this.alive) return;
    this.alive = false;
    this.life += 1;
    this.callsOut = 0;
    this.reading = null;
    this.disk.crash(landsAll);
  }

  restart(): void {
    if (this.alive) return;
    this.alive = true;
    this.outbox = this.open();
    this.refresh();
  }

  private open(): Outbox {
    const { queue, random, isRough, freshId } = this.world;
    const { evaluationId, seatId, skew, fault } = this.seat;
    const delayed = () => isRough() && random.below(10) === 0;
    const outbox = new (fault === 'reads-before-it-waits' ? StaleOutbox : Outbox)({
      evaluationId,
      seatId,
      freshId,
      store: this.store(),
      now: () => startOfDay + skew + queue.now(),
      spread: random.uniform,
      after: (milliseconds, work) => {
        let wanted = true;
        queue.plan(
          milliseconds,
          this.living(() => wanted && work()),
        );
        return () => {
          wanted = false;
        };
      },
      send: (entries, signal) => this.send(entries, signal),
      // Another page of the device may hold the lock for a while.
      alone: (work) =>
        delayed()
          ? new Promise((resolve) =>
              queue.plan(
                random.below(8000),
                this.living(() => resolve(work())),
              ),
            )
          : work(),
      tellOthers: () => undefined,
      onAnswered: (outcomes) => {
        for (const outcome of outcomes) this.events.acknowledged(outcome);
        this.refresh();
      },
      onDoubt: () => this.refresh(),
    });
    outbox.subscribe(
      this.living(() => {
        for (const row of outbox.getView().state.rows) if (row.kept === 'disk') this.events.promised(row.entry.id);
      }),
    );
    outbox.start();
    return outbox;
  }

  private store() {
    const { rows } = this.disk;
    const forgetsShown = this.seat.fault === 'forgets-when-shown';
    return {
      load: () => this.disk.work(() => [...rows.values()]),
      save: (changed: readonly OutboxRow[]) =>
        this.disk.work(() => {
          for (const row of changed) {
            if (forgetsShown && row.shown === true) rows.delete(row.entry.id);
            else rows.set(row.entry.id, { ...row, kept: 'disk' });
          }
        }),
      remove: (ids: readonly string[]) => this.disk.work(() => ids.forEach((id) => rows.delete(id))),
      close: () => undefined,
    };
  }

  private send(entries: readonly SentEntry[], signal: AbortSignal): Promise<readonly EntryOutcome[]> {
    if (this.seat.fault === 'forgets-when-sent') for (const { id } of entries) this.disk.rows.delete(id);
    this.callsOut += 1;
    let out = true;
    const over = () => {
      if (out) this.callsOut -= 1;
      out = false;
    };
    signal.addEventListener('abort', over);
    return new Promise((resolve, reject) => {
      this.world.submit(
        entries,
        this.living((outcomes) => {
          over();
          if (outcomes) resolve(outcomes);
          else reject(new Error('no answer'));
        }),
      );
    });
  }

  /** Nothing reaches a page that has died. */
  private living<A extends unknown[]>(work: (...values: A) => unknown): (...values: A) => void {
    const { life } = this;
    return (...values) => {
      if (life === this.life) work(...values);
    };
  }
}
