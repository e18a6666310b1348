import { DomainError } from '#lib/errors';

/** So many at once, and so many a second after that. */
export type Rate = { readonly burst: number; readonly perSecond: number };

export type Rates = {
  /** Changes, by session; what a device kept back and sends in one call is one. */
  readonly writes: Rate;
  /** Wrong codes and passphrases, by address. */
  readonly tries: Rate;
  /** The demo's copies, by address. */
  readonly demo: Rate;
  /** The costly statistics, by session. */
  readonly coefficients: Rate;
  /** What all addresses together may get wrong before everybody waits. */
  readonly failures: { readonly most: number; readonly pause: number };
};

const minute = 60_000;

export const standardRates: Rates = {
  writes: { burst: 100, perSecond: 20 },
  tries: { burst: 5, perSecond: 5 / 60 },
  demo: { burst: 10, perSecond: 1 / 6 },
  coefficients: { burst: 10, perSecond: 1 },
  failures: { most: 20, pause: 10 * minute },
};

type Kind = Exclude<keyof Rates, 'failures'>;
export type Door = 'code' | 'passphrase';
type Guess = { readonly door: Door; readonly address: string; readonly now: number };

export type Limits = {
  /** Throws too-many, with the seconds to wait. */
  spend(kind: Kind, key: string, now: number): void;
  /**
   * Runs a try at a secret that could be guessed. Counted before it runs, so that no number of tries at once gets past; a
   * right one is taken back. Throws too-many, with the seconds to wait.
   */
  guess<T>(guess: Guess, attempt: () => T | Promise<T>): Promise<T>;
  /** Work that takes a lot of memory, one after the other. Throws busy when too many wait. */
  inTurn<T>(work: () => Promise<T>): Promise<T>;
};

type Bucket = { left: number; at: number };
type Count = { failures: number; last: number; pausedUntil: number };

/** Counts in memory: a restart forgets, and a door that cannot be tried is worth no restart. */
export function createLimits(rates: Rates): Limits {
  const buckets = new Map<string, Bucket>();
  const counts: Record<Door, Count> = { code: fresh(), passphrase: fresh() };
  const spend = (kind: Kind, key: string, now: number) => {
    const wait = take(bucketOf(buckets, { key: `${kind} ${key}`, rate: rates[kind], now }), rates[kind]);
    if (wait > 0) throw new DomainError('too-many', { seconds: wait });
  };
  return {
    spend,
    guess: async ({ door, address, now }, attempt) => {
      const count = counts[door];
      const wait = pauseOf(count, rates.failures, now);
      if (wait > 0) throw new DomainError('too-many', { seconds: wait });
      spend('tries', `${door} ${address}`, now);
      count.failures += 1;
      count.last = now;
      const takeBack = () => {
        count.failures = Math.max(0, count.failures - 1);
        bucketOf(buckets, { key: `tries ${door} ${address}`, rate: rates.tries, now }).left += 1;
      };
      try {
        const won = await attempt();
        takeBack();
        return won;
      } catch (error) {
        if (!(error instanceof DomainError) || error.code !== 'wrong-secret') takeBack();
        throw error;
      }
    },
    inTurn: createTurnstile(),
  };
}

function createTurnstile(): Limits['inTurn'] {
  let waiting = 0;
  let last: Promise<unknown> = Promise.resolve();
  return async (work) => {
    if (waiting >= 4) throw new DomainError('busy');
    waiting += 1;
    const done = last.then(work);
    last = done.catch(() => undefined).finally(() => {
      waiting -= 1;
    });
    return done;
  };
}

const fresh = (): Count => ({ failures: 0, last: 0, pausedUntil: 0 });

/** Seconds until the door opens again; it closes with the last failure allowed, and an hour without one forgets them. */
function pauseOf(count: Count, { most, pause }: Rates['failures'], now: number): number {
  if (now - count.last > 60 * minute) count.failures = 0;
  if (count.failures >= most) {
    count.pausedUntil = count.last + pause;
    count.failures = 0;
  }
  return Math.max(0, Math.ceil((count.pausedUntil - now) / 1000));
}

/** Filled up to now. Full buckets are forgotten once there are many. */
function bucketOf(buckets: Map<string, Bucket>, { key, rate, now }: { readonly key: string; readonly rate: Rate; readonly now: number }): Bucket {
  if (buckets.size > 10_000) for (const [name, { at }] of buckets) if (now - at > 10 * minute) buckets.delete(name);
  const bucket = buckets.get(key) ?? { left: rate.burst, at: now };
  bucket.left = Math.min(rate.burst, bucket.left + (Math.max(0, now - bucket.at) / 1000) * rate.perSecond);
  bucket.at = now;
  buckets.set(key, bucket);
  return bucket;
}

function take(bucket: Bucket, { perSecond }: Rate): number {
  if (bucket.left < 1) return Math.ceil((1 - bucket.left) / perSecond);
  bucket.left -= 1;
  return 0;
}
