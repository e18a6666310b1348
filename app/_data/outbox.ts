import type { Answer, Entry, EntryBody, EntryOutcome } from '#lib/contract/entry';
import { entryField } from '#lib/evaluation/entryField';
import {
  absorbedIds, addRows, emptyOutbox, failBatch, nextBatch, nextCounter, nextCounterUnread, nudge, putAway, registerOf, settleBatch,
  settleRow, startSending, waitingRows, type OutboxRow, type OutboxState,
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
  readonly send: (entries: readonly Entry[], signal: AbortSignal) => Promise<readonly EntryOutcome[]>;
  /** Runs the work alone on this device, or not at all when another page is at it. */
  readonly alone: (work: () => Promise<void>) => Promise<void>;
  /** Tells the device's other pages that rows changed. */
  readonly tellOthers: () => void;
  readonly onAnswered: (outcomes: readonly EntryOutcome[]) => void;
};

export type Edit = { readonly subject: string; readonly body: EntryBody; readonly roundId: string };

const heartbeatMs = 5000;
/** A call without an answer for two and a half seconds is worth saying, for ten is given up and made again. */
const silenceMs = 2550;
const answerWithinMs = 10_000;
/** A call this old when the page or the link wakes went out on a link that is gone. */
const staleMs = 1000;
const slowMs = 550;
const tooLongWords = 'no answer';

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
  private left = false;
  /** What the device kept from earlier could not be read yet. */
  private unread = true;
  private call: { readonly since: number; readonly abort: AbortController } | null = null;

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

  /** The seat has signed out: nothing more is sent, nor written on this device. */
  leave(): void {
    this.left = true;
    this.stop();
    this.call?.abort.abort();
  }

  /** Reads what the device holds: at the start, and when another page of it says that something changed. */
  readonly reload = async (): Promise<void> => {
    try {
      const rows = await this.setting.store.load(this.setting);
      const open = rows.filter((row) => !this.doneIds.has(row.entry.id));
      this.unread = false;
      this.set({ state: addRows(this.view.state, open), loaded: true, storeFailed: false });
    } catch {
      this.set({ loaded: true, storeFailed: true });
    }
    void this.flush();
  };

  /** Takes an edit: at once in the view, then on the device, then on its way. */
  async add({ subject, body, roundId }: Edit): Promise<void> {
    const { evaluationId, seatId, now, freshId, tellOthers } = this.setting;
    const counter = (this.unread ? nextCounterUnread : nextCounter)(this.view.state, this.answers, registerOf(subject, entryField(body)));
    const entry: Entry = { id: freshId(), subject, counter, madeAt: now(), body };
    const row: OutboxRow = { entry, evaluationId, roundId, seatId, status: 'waiting', code: null, kept: 'pending' };
    this.set({ state: addRows(this.view.state, [row]) });
    // A device that is slow to write is said to be, so the view is made anew once it should have been quick.
    const slow = setTimeout(() => this.set({}), slowMs);
    const kept = await this.keep([row]);
    clearTimeout(slow);
    this.set({ state: settleRow(this.view.state, entry.id, kept) });
    tellOthers();
    await this.flush();
  }

  /** The link may be back, or the page has woken: try at once, and give up a call made on the link before. */
  readonly wake = (): void => {
    if (this.call && this.setting.now() - this.call.since >= staleMs) this.call.abort.abort();
    this.set({ state: nudge(this.view.state) });
    void this.beat();
  };

  private async beat(): Promise<void> {
    await this.rescue();
    await this.flush();
  }

  /** What the device could not read or write before, it may be able to now. */
  private async rescue(): Promise<void> {
    if (this.unread && this.view.loaded) await this.reload();
    for (const row of waitingRows(this.view.state).filter((one) => one.kept === 'memory')) {
      this.set({ state: settleRow(this.view.state, row.entry.id, await this.keep([row])) });
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
    if (ids.length === 0) return;
    this.set({ state: ids.reduce(putAway, this.view.state) });
    void this.drop(ids);
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
    const { now, spread, onAnswered, tellOthers } = this.setting;
    const call = { since: now(), abort: new AbortController() };
    this.call = call;
    const tooLong = setTimeout(() => call.abort.abort(tooLongWords), answerWithinMs);
    try {
      const outcomes = await this.answerOf(batch, call.abort.signal);
      this.set({ state: settleBatch(this.view.state, outcomes) });
      onAnswered(outcomes);
    } catch (error) {
      const failed = failBatch(this.view.state, { now: now(), code: codeOf(error), spread: spread() });
      const woken = call.abort.signal.aborted && call.abort.signal.reason !== tooLongWords;
      this.set({ state: woken ? nudge(failed) : failed });
    } finally {
      clearTimeout(tooLong);
      this.call = null;
    }
    await this.recordOutcomes(batch);
    tellOthers();
  }

  /** The server's answer, or a rejection as soon as the call is given up, whatever the network does then. */
  private answerOf(batch: readonly Entry[], signal: AbortSignal): Promise<readonly EntryOutcome[]> {
    return new Promise((resolve, reject) => {
      signal.addEventListener('abort', () => reject(new Error('given up')));
      this.setting.send(batch, signal).then(resolve, reject);
    });
  }

  /** On the device, too: what was answered, until a read shows it or the person has put the notice away. */
  private async recordOutcomes(batch: readonly Entry[]): Promise<void> {
    const ids = new Set(batch.map((entry) => entry.id));
    const rows = this.view.state.rows.filter((row) => ids.has(row.entry.id) && row.status !== 'waiting');
    if (rows.length > 0) await this.keep(rows);
  }

  private async keep(rows: readonly OutboxRow[]): Promise<'disk' | 'memory'> {
    if (this.left) return 'memory';
    try {
      await this.setting.store.save(rows);
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
    await this.setting.store.remove(ids).catch(() => undefined);
  }

  private plan(): void {
    clearTimeout(this.timer);
    const { state } = this.view;
    if (this.stopped || (waitingRows(state).length === 0 && !this.unread)) return;
    const untilRetry = state.retryAt - this.setting.now();
    this.timer = setTimeout(() => void this.beat(), untilRetry > 0 ? Math.min(heartbeatMs, untilRetry) : heartbeatMs);
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
