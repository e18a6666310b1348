import { refusedOnWay } from './photoAnswer';
import type { PostPhoto } from './postPhoto';
import type { PhotoStore, WaitingPhoto } from './photoStore';
import type { After } from './timers';

type QueuedPhoto = Omit<WaitingPhoto, 'bytes'>;

export type PhotoQueueView = {
  readonly loaded: boolean;
  readonly rows: readonly QueuedPhoto[];
  /** Being sent now, and how much of it is out (0 to 1). */
  readonly sending: { readonly id: string; readonly share: number } | null;
  /** Sent since this page opened. */
  readonly sent: number;
  /** Failed sends in a row; 0 while all goes well. */
  readonly failures: number;
  /** Of pictures that somebody on the way refused and that are tried again by themselves: the refusal's code, by id. */
  readonly onWay: Readonly<Record<string, string>>;
  /** True while the device could not be written: pictures live in this page only. */
  readonly storeFailed: boolean;
};

type PhotoQueueSetting = {
  readonly evaluationId: string;
  readonly seat: string;
  readonly store: PhotoStore;
  readonly post: PostPhoto;
  readonly now: () => number;
  readonly after: After;
  readonly spread: () => number;
  readonly alone: (work: () => Promise<void>) => Promise<void>;
  readonly onSent: () => void;
};

/** Will not change by trying again. */
const final = new Set([
  'file-kind',
  'file-heic',
  'file-unreadable',
  'file-too-large',
  'picture-too-big',
  'clip-too-long',
  'bad-input',
  'not-allowed',
  'not-found',
  'wrong-phase',
  'in-use',
]);
const firstPauseMs = 1000;
const longestPauseMs = 30_000;
/** So often somebody on the way may refuse a picture before the person is asked. */
const wayTries = 5;

type Delay = { readonly code: string; readonly times: number; readonly until: number };

/** Pictures of one seat on their way to the server, one after the other, each on the device's disk before it is sent. */
export class PhotoQueue {
  private view: PhotoQueueView = {
    loaded: false,
    rows: [],
    sending: null,
    sent: 0,
    failures: 0,
    onWay: {},
    storeFailed: false,
  };
  private readonly photos = new Map<string, WaitingPhoto>();
  private readonly delays = new Map<string, Delay>();
  /** Done with here: a slow read of the device must not bring them back. */
  private readonly doneIds = new Set<string>();
  private readonly listeners = new Set<() => void>();
  private readonly setting: PhotoQueueSetting;
  private unplan = (): void => undefined;
  private busy = false;
  private stopped = false;

  constructor(setting: PhotoQueueSetting) {
    this.setting = setting;
  }

  readonly getView = (): PhotoQueueView => this.view;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };

  async start(): Promise<void> {
    this.stopped = false;
    try {
      this.takeIn(await this.setting.store.load(this.setting));
      this.set({ loaded: true });
    } catch {
      this.set({ loaded: true, storeFailed: true });
    }
    await this.flush();
  }

  stop(): void {
    this.stopped = true;
    this.unplan();
  }

  /** What the device kept and this page does not know yet. What has happened to a picture since that read began stays so. */
  protected takeIn(read: readonly WaitingPhoto[]): void {
    for (const photo of read)
      if (!this.photos.has(photo.id) && !this.doneIds.has(photo.id)) this.photos.set(photo.id, photo);
  }

  /** Takes a picture: on the device first, then on its way. */
  async add(photo: WaitingPhoto): Promise<void> {
    this.photos.set(photo.id, photo);
    this.doneIds.delete(photo.id);
    this.set({});
    try {
      await this.setting.store.save(photo);
      this.set({ storeFailed: false });
    } catch {
      this.set({ storeFailed: true });
    }
    void this.flush();
  }

  /** The person has read why it was refused. */
  readonly putAway = (id: string): void => {
    void this.forget(id);
  };

  /** The person asks for what was given up on the way, or refused, to be sent once more. */
  async retry(id: string): Promise<void> {
    const photo = this.photos.get(id);
    if (!photo) return;
    this.delays.delete(id);
    await this.keep({ ...photo, code: null });
    await this.flush();
  }

  /** The link may be back, or the page has woken. */
  readonly wake = (): void => {
    for (const [id, delay] of this.delays) this.delays.set(id, { ...delay, until: 0 });
    this.set({ failures: 0 });
    void this.flush();
  };

  async flush(): Promise<void> {
    if (this.busy || this.stopped || this.waiting().length === 0) return;
    this.unplan();
    this.busy = true;
    try {
      await this.setting.alone(() => this.sendAll());
    } finally {
      this.busy = false;
    }
    if (!this.stopped && this.waiting().length > 0)
      this.unplan = this.setting.after(this.pauseBefore(), () => void this.flush());
  }

  private waiting(): readonly WaitingPhoto[] {
    return [...this.photos.values()].filter((photo) => photo.code === null);
  }

  private due(): readonly WaitingPhoto[] {
    const now = this.setting.now();
    return this.waiting().filter(({ id }) => (this.delays.get(id)?.until ?? 0) <= now);
  }

  /** After a failure all wait; else until the first of those that wait for themselves is due. */
  private pauseBefore(): number {
    if (this.view.failures > 0 || this.due().length > 0) return this.pause(this.view.failures);
    return Math.max(
      0,
      Math.min(...this.waiting().map(({ id }) => this.delays.get(id)?.until ?? 0)) - this.setting.now(),
    );
  }

  private pause(failures: number): number {
    return Math.min(longestPauseMs, firstPauseMs * 2 ** Math.max(0, failures - 1)) * (0.75 + this.setting.spread() / 2);
  }

  private async sendAll(): Promise<void> {
    for (let photo = this.due()[0]; photo && !this.stopped; photo = this.due()[0]) {
      if (!(await this.send(photo))) return;
    }
  }

  /** False when it has to be tried again later. */
  private async send(photo: WaitingPhoto): Promise<boolean> {
    const { id } = photo;
    this.set({ sending: { id, share: 0 } });
    try {
      await this.setting.post(photo, (share) => this.showShare(id, share));
      this.set({ sent: this.view.sent + 1, failures: 0, sending: null });
      await this.forget(id);
      this.setting.onSent();
      return true;
    } catch (error) {
      const code = codeOf(error);
      this.set({ sending: null });
      if (code !== null && refusedOnWay.has(code)) return this.refusedOnWay(photo, code);
      if (code === null || !final.has(code)) {
        this.set({ failures: this.view.failures + 1 });
        return false;
      }
      await this.keep({ ...photo, code });
      return true;
    }
  }

  /** Somebody on the way takes this one not: the next may pass. It is tried again later and later, then the person is asked. */
  private async refusedOnWay(photo: WaitingPhoto, code: string): Promise<boolean> {
    const times = (this.delays.get(photo.id)?.times ?? 0) + 1;
    if (times < wayTries) {
      this.delays.set(photo.id, { code, times, until: this.setting.now() + this.pause(times) });
      this.set({});
    } else {
      this.delays.delete(photo.id);
      await this.keep({ ...photo, code });
    }
    return true;
  }

  private async keep(photo: WaitingPhoto): Promise<void> {
    this.photos.set(photo.id, photo);
    this.set({});
    await this.setting.store.save(photo).catch(() => undefined);
  }

  /** A share that is told once the call has ended would show one that is under way no more. */
  private showShare(id: string, share: number): void {
    if (this.view.sending?.id === id) this.set({ sending: { id, share } });
  }

  private async forget(id: string): Promise<void> {
    this.photos.delete(id);
    this.delays.delete(id);
    this.doneIds.add(id);
    this.set({});
    await this.setting.store.remove(id).catch(() => undefined);
  }

  private set(change: Partial<PhotoQueueView>): void {
    const onWay = Object.fromEntries([...this.delays].map(([id, { code }]) => [id, code]));
    this.view = {
      ...this.view,
      ...change,
      onWay,
      rows: [...this.photos.values()].map(({ bytes: _bytes, ...row }) => row),
    };
    for (const listener of this.listeners) listener();
  }
}

function codeOf(error: unknown): string | null {
  if (typeof error !== 'object' || error === null || !('data' in error)) return null;
  const { data } = error;
  return typeof data === 'object' && data !== null && 'code' in data ? String(data.code) : null;
}
