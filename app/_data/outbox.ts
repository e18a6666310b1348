import type { Answer, Entry, EntryBody, EntryOutcome, SentEntry } from '#lib/contract/entry';
import { entryField } from '#lib/evaluation/entries';
import {
  absorbRead,
  addRows,
  emptyOutbox,
  failBatch,
  nextBatch,
  nextCounter,
  nextCounterUnread,
  nudge,
  putAway,
  registerOf,
  settleBatch,
  settleRows,
  startSending,
  stopSending,
  waitingRows,
  type OutboxRow,
  type OutboxState,
  type OwnRead,
} from '#lib/evaluation/outboxState';
import { OutboxDisk } from './outboxDisk';
import type { OutboxStore } from './outboxStore';
import { inTime, type After } from './timers';
import { ViewStore } from './viewStore';

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
  readonly after: After;
  readonly spread: () => number;
  readonly freshId: () => string;
  /** Rejects with the server's code under `data.code` when refused, with anything else when there was no answer. */
  readonly send: (entries: readonly SentEntry[], signal: AbortSignal) => Promise<readonly EntryOutcome[]>;
  /** Runs the work alone on this device, or not at all when another page is at it. */
  readonly alone: (work: () => Promise<void>) => Promise<void>;
  /** Tells the device's other pages that rows changed. */
  readonly tellOthers: () => void;
  readonly onAnswered: (outcomes: readonly EntryOutcome[]) => void;
  /** A read lacked what had been acknowledged: another one is needed to know. */
  readonly onDoubt: () => void;
};

type Edit = { readonly subject: string; readonly body: EntryBody; readonly roundId: string };

const heartbeatMs = 5000;
/** A call without an answer for two and a half seconds is worth saying, for ten is given up and made again. */
const silenceMs = 2550;
const answerWithinMs = 10_000;
/** A call this old when the page or the link wakes went out on a link that is gone. */
const staleMs = 1000;
const slowMs = 550;
/** Longer than the device's database takes to give up by itself. */
const loadWithinMs = 6000;
const tooLongWords = 'no answer';

type Call = { readonly since: number; readonly abort: AbortController; readonly entries: readonly SentEntry[] };

/** The outbox of one seat on one device: the pure machine, its disk, its sender and its clock. */
export class Outbox {
  private readonly views = new ViewStore<OutboxView>({ state: emptyOutbox, loaded: false, storeFailed: false, at: 0 });
  protected readonly setting: OutboxSetting;
  private readonly disk: OutboxDisk;
  /** The seat's own answers as last read: what edits are numbered from, however old the screen that makes them. */
  private answers: readonly Answer[] = [];
  /** Done with here: a slow read of the device must not bring them back. */
  private readonly doneIds = new Set<string>();
  private unplan = (): void => undefined;
  private stopped = false;
  /** What the device kept from earlier could not be read yet. */
  private unread = true;
  private call: Call | null = null;

  constructor(setting: OutboxSetting) {
    this.setting = setting;
    const { store, after } = setting;
    this.disk = new OutboxDisk({
      store,
      after,
      present: () => this.getView().state,
      onSettled: (ids, kept) => this.settleOnDisk(ids, kept),
    });
  }

  readonly getView = (): OutboxView => this.views.get();

  readonly subscribe = (listener: () => void): (() => void) => this.views.subscribe(listener);

  start(): void {
    this.stopped = false;
    void this.reload();
  }

  stop(): void {
    this.stopped = true;
    this.unplan();
  }

  /** The seat has signed out: nothing more is sent, nor written on this device. */
  leave(): void {
    this.disk.close();
    this.setting.store.close();
    this.stop();
    this.call?.abort.abort();
  }

  /** Reads what the device holds: at the start, and when another page of it says that something changed. */
  readonly reload = async (): Promise<void> => {
    const { store, after } = this.setting;
    try {
      const rows = await inTime(store.load(this.setting), {
        milliseconds: loadWithinMs,
        after,
        words: 'the device does not answer',
      });
      this.unread = false;
      const open = rows.filter((row) => !this.doneIds.has(row.entry.id));
      this.change(
        ({ state, storeFailed }) => ({
          state: addRows(state, open),
          loaded: true,
          storeFailed: storeFailed && this.disk.behind,
        }),
        'from disk',
      );
    } catch {
      this.change(() => ({ loaded: true, storeFailed: true }));
    }
    await this.flush();
  };

  /** Takes an edit: at once in the view, then on the device, then on its way. */
  async add({ subject, body, roundId }: Edit): Promise<void> {
    const { evaluationId, seatId, now, after, freshId } = this.setting;
    const id = freshId();
    this.change(({ state }) => {
      const counter = (this.unread ? nextCounterUnread : nextCounter)(
        state,
        this.answers,
        registerOf(subject, entryField(body)),
      );
      const entry: Entry = { id, subject, counter, madeAt: now(), body };
      const row: OutboxRow = { entry, evaluationId, roundId, seatId, status: 'waiting', code: null, kept: 'pending' };
      return { state: addRows(state, [row]) };
    });
    // A device that is slow to write is said to be, so the view is made anew once it should have been quick.
    const quick = after(slowMs, () => this.change(() => ({})));
    await this.disk.write();
    quick();
    await this.flush();
  }

  /** The link may be back, or the page has woken: try at once, and give up a call made on the link before. */
  readonly wake = (): void => {
    if (this.call && this.setting.now() - this.call.since >= staleMs) this.call.abort.abort();
    this.change(({ state }) => ({ state: nudge(state) }));
    void this.beat();
  };

  /** What the device could not read or write before, it may be able to now. */
  protected async beat(): Promise<void> {
    if (this.unread && this.getView().loaded) await this.reload();
    await this.disk.retry();
    await this.flush();
  }

  /** The person has read a notice about an answered entry. */
  readonly putAway = (id: string): void => this.change(({ state }) => ({ state: putAway(state, id) }));

  /** A fresh read of the seat's own answers: it shows what had been acknowledged, or lacks what the server has lost. */
  absorb(read: OwnRead): void {
    this.answers = read.answers;
    this.change(({ state }) => ({ state: absorbRead(state, read) }));
    if (this.getView().state.doubted.length > 0) this.setting.onDoubt();
    void this.flush();
  }

  async flush(): Promise<void> {
    if (!this.stopped && nextBatch(this.getView().state, this.setting.now()).length > 0) {
      await this.setting.alone(() => this.sendAll());
      await this.disk.write();
    }
    this.plan();
  }

  private async sendAll(): Promise<void> {
    for (let call = this.startCall(); call !== null; call = this.startCall()) await this.makeCall(call);
  }

  /** Takes what is to be sent now; null when there is nothing, or a call is under way. */
  private startCall(): Call | null {
    const since = this.setting.now();
    const entries = this.stopped || this.call ? [] : nextBatch(this.getView().state, since);
    if (entries.length === 0) return null;
    const call = { since, abort: new AbortController(), entries };
    this.call = call;
    this.change(({ state }) => ({
      state: startSending(
        state,
        entries.map((entry) => entry.id),
        since,
      ),
    }));
    return call;
  }

  private async makeCall({ abort, entries }: Call): Promise<void> {
    const { after, onAnswered } = this.setting;
    const tooLong = after(answerWithinMs, () => abort.abort(tooLongWords));
    const silent = after(silenceMs, () => this.change(() => ({})));
    const answer = await this.answerTo(entries, abort.signal);
    tooLong();
    silent();
    try {
      this.change(({ state }) => ({ state: this.afterCall(state, answer, abort.signal) }));
    } finally {
      // Whatever an answer was made of: the call is over, and the next may start.
      this.call = null;
    }
    if ('outcomes' in answer) onAnswered(answer.outcomes);
  }

  private afterCall(state: OutboxState, answer: CallAnswer, signal: AbortSignal): OutboxState {
    if ('outcomes' in answer) return settleBatch(state, answer.outcomes);
    const failed = failBatch(state, {
      now: this.setting.now(),
      code: codeOf(answer.error),
      spread: this.setting.spread(),
    });
    return signal.aborted && signal.reason !== tooLongWords ? nudge(failed) : failed;
  }

  /** The server's answer, or a failure as soon as the call is given up, whatever the network does then. */
  private answerTo(entries: readonly SentEntry[], signal: AbortSignal): Promise<CallAnswer> {
    return new Promise((resolve) => {
      const fail = (error: unknown) => resolve({ error });
      signal.addEventListener('abort', () => fail(new Error('given up')));
      try {
        this.setting.send(entries, signal).then((outcomes) => resolve({ outcomes }), fail);
      } catch (error) {
        fail(error);
      }
    });
  }

  private settleOnDisk(ids: readonly string[], kept: 'disk' | 'memory'): void {
    this.change(({ state }) => ({ state: settleRows(state, ids, kept), storeFailed: kept === 'memory' }));
    if (kept === 'disk') this.setting.tellOthers();
  }

  private plan(): void {
    this.unplan();
    const { state } = this.getView();
    if (this.stopped || (waitingRows(state).length === 0 && !this.unread && !this.disk.behind)) return;
    const untilRetry = state.retryAt - this.setting.now();
    this.unplan = this.setting.after(
      untilRetry > 0 ? Math.min(heartbeatMs, untilRetry) : heartbeatMs,
      () => void this.beat(),
    );
  }

  /**
   * The only way to change what is shown and kept: a step from what it is now. The disk follows. Entries are in sending only
   * while a call is under way: should they ever be without one, they wait again, for a row that nobody sends is lost.
   */
  protected change(step: (present: OutboxView) => Partial<OutboxView>, origin: 'here' | 'from disk' = 'here'): void {
    const { state: before } = this.getView();
    this.views.change((present) => {
      const next = { ...present, ...step(present), at: this.setting.now() };
      return next.state.sending.length > 0 && !this.call ? { ...next, state: stopSending(next.state) } : next;
    });
    if (origin === 'from disk') return;
    this.disk.follow(before, this.getView().state, (id) => this.doneIds.add(id));
    void this.disk.write();
  }
}

type CallAnswer = { readonly outcomes: readonly EntryOutcome[] } | { readonly error: unknown };

function codeOf(error: unknown): string | null {
  if (typeof error !== 'object' || error === null || !('data' in error)) return null;
  const { data } = error;
  return typeof data === 'object' && data !== null && 'code' in data ? String(data.code) : null;
}
