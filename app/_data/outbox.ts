import type { Answer, Entry, EntryBody, EntryOutcome } from '#lib/contract/entry';
import { entryField } from '#lib/evaluation/entryField';
import {
  absorbedIds, addRows, emptyOutbox, failBatch, nextBatch, nextCounter, nudge, putAway, registerOf, settleBatch, settleRow,
  startSending, waitingRows, type OutboxRow, type OutboxState,
} from '#lib/evaluation/outboxState';
import type { OutboxStore } from './outboxStore';

export type OutboxView = {
  readonly state: OutboxState;
  /** True once what the device kept from earlier has been read; edits made before would not know their counters. */
  readonly loaded: boolean;
  /** True while the device could not be written: entries live in this page only. */
  readonly storeFailed: boolean;
  /** When this view was made, so that a screen can say how long an answer has been out. */
  readonly at: number;
};

export type OutboxSetting = {
  readonly evaluationId: string;
  readonly seatId: string;
  readonly store: OutboxStore;
  readonly now: () => number;
  readonly spread: () => number;
  readonly freshId: () => string;
  /** Rejects with the server's code under `data.code` when refused, with anything else when there was no answer. */
  readonly send: (entries: readonly Entry[]) => Promise<readonly EntryOutcome[]>;
  /** Runs the work alone on this device, or not at all when another page is at it. */
  readonly alone: (work: () => Promise<void>) => Promise<void>;
  /** Tells the device's other pages that rows changed. */
  readonly tellOthers: () => void;
  readonly onAnswered: (outcomes: readonly EntryOutcome[]) => void;
};

export type Edit = { readonly subject: string; readonly body: EntryBody; readonly roundId: string };

const heartbeatMs = 5000;
/** A call without an answer for three seconds is worth saying. */
const silenceMs = 3050;

/** The outbox of one seat on one device: the pure machine, its disk, its sender and its clock. */
export class Outbox {
  private view: OutboxView = { state: emptyOutbox, loaded: false, storeFailed: false, at: 0 };
  private readonly listeners = new Set<() => void>();
  private readonly setting: OutboxSetting;
  /** The seat's own answers as last read: what edits are numbered from, however old the screen that makes them. */
  private answers: readonly Answer[] = [];
  /** Done with here: a slow read of the device must not bring them back. */
  private readonly doneIds = new Set<string>();
  private timer: ReturnType<typeof setTimeout> | undefined;
  private stopped = false;

  constructor(setting: OutboxSetting) {
    this.setting = setting;
  }

  readonly getView = (): OutboxView => this.view;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  start(): void {
    this.stopped = false;
    void this.reload();
  }

  stop(): void {
    this.stopped = true;
    clearTimeout(this.timer);
  }

  /** Reads what the device holds: at the start, and when another page of it says that something changed. */
  readonly reload = async (): Promise<void> => {
    try {
      const rows = await this.setting.store.load(this.setting);
      const open = rows.filter((row) => !this.doneIds.has(row.entry.id));
      this.set({ state: addRows(this.view.state, open), loaded: true, storeFailed: false });
    } catch {
      this.set({ loaded: true, storeFailed: true });
    }
    void this.flush();
  };

  /** Takes an edit: at once in the view, then on the device, then on its way. */
  async add({ subject, body, roundId }: Edit): Promise<void> {
    const { evaluationId, seatId, now, freshId, tellOthers } = this.setting;
    const counter = nextCounter(this.view.state, this.answers, registerOf(subject, entryField(body)));
    const entry: Entry = { id: freshId(), subject, counter, madeAt: now(), body };
    const row: OutboxRow = { entry, evaluationId, roundId, seatId, status: 'waiting', code: null, kept: 'pending' };
    this.set({ state: addRows(this.view.state, [row]) });
    const kept = await this.keep(row);
    this.set({ state: settleRow(this.view.state, entry.id, kept) });
    tellOthers();
    await this.flush();
  }

  /** The link may be back, or the page has woken. */
  readonly wake = (): void => {
    this.set({ state: nudge(this.view.state) });
    void this.rescue();
    void this.flush();
  };

  /** What the device could not write before, it may be able to write now. */
  private async rescue(): Promise<void> {
    for (const row of waitingRows(this.view.state).filter((one) => one.kept === 'memory')) {
      this.set({ state: settleRow(this.view.state, row.entry.id, await this.keep(row)) });
    }
  }

  /** The person has read a notice about an answered entry. */
  readonly putAway = (id: string): void => {
    this.set({ state: putAway(this.view.state, id) });
    void this.drop([id]);
  };

  /** A fresh read of the seat's own answers shows what had been acknowledged. */
  absorb(answers: readonly Answer[]): void {
    this.answers = answers;
    const ids = absorbedIds(this.view.state, answers);
    if (ids.length > 0) this.set({ state: ids.reduce(putAway, this.view.state) });
  }

  async flush(): Promise<void> {
    if (this.stopped || nextBatch(this.view.state, this.setting.now()).length === 0) {
      this.plan();
      return;
    }
    await this.setting.alone(() => this.sendAll());
    this.plan();
  }

  private async sendAll(): Promise<void> {
    for (let batch = this.batch(); batch.length > 0; batch = this.batch()) {
      this.set({ state: startSending(this.view.state, batch.map((entry) => entry.id), this.setting.now()) });
      setTimeout(() => this.set({}), silenceMs);
      await this.sendBatch(batch);
    }
  }

  private batch(): readonly Entry[] {
    return this.stopped ? [] : nextBatch(this.view.state, this.setting.now());
  }

  private async sendBatch(batch: readonly Entry[]): Promise<void> {
    const { send, now, spread, onAnswered, tellOthers } = this.setting;
    try {
      const outcomes = await send(batch);
      this.set({ state: settleBatch(this.view.state, outcomes) });
      onAnswered(outcomes);
    } catch (error) {
      this.set({ state: failBatch(this.view.state, { now: now(), code: codeOf(error), spread: spread() }) });
    }
    await this.recordOutcomes(batch);
    tellOthers();
  }

  /** On the device, too: acknowledged rows go, answered ones keep what was answered. */
  private async recordOutcomes(batch: readonly Entry[]): Promise<void> {
    const ids = new Set(batch.map((entry) => entry.id));
    const rows = this.view.state.rows.filter((row) => ids.has(row.entry.id) && row.status !== 'waiting');
    await this.drop(rows.filter((row) => row.status === 'applied').map((row) => row.entry.id));
    for (const row of rows.filter((one) => one.status !== 'applied')) await this.keep(row);
  }

  private async keep(row: OutboxRow): Promise<'disk' | 'memory'> {
    try {
      await this.setting.store.save(row);
      this.set({ storeFailed: false });
      return 'disk';
    } catch {
      this.set({ storeFailed: true });
      return 'memory';
    }
  }

  /** A row that cannot be removed is sent again one day, which is harmless (SC2). */
  private async drop(ids: readonly string[]): Promise<void> {
    for (const id of ids) this.doneIds.add(id);
    await Promise.allSettled(ids.map((id) => this.setting.store.remove(id)));
  }

  private plan(): void {
    clearTimeout(this.timer);
    const { state } = this.view;
    if (this.stopped || waitingRows(state).length === 0) return;
    const untilRetry = state.retryAt - this.setting.now();
    this.timer = setTimeout(() => void this.flush(), untilRetry > 0 ? Math.min(heartbeatMs, untilRetry) : heartbeatMs);
  }

  private set(change: Partial<OutboxView>): void {
    this.view = { ...this.view, ...change, at: this.setting.now() };
    for (const listener of this.listeners) listener();
  }
}

function codeOf(error: unknown): string | null {
  if (typeof error !== 'object' || error === null || !('data' in error)) return null;
  const { data } = error;
  return typeof data === 'object' && data !== null && 'code' in data ? String(data.code) : null;
}
