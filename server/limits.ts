import { DomainError } from '#lib/errors';

/** So many at once, and so many a second after that. */
type Rate = { readonly burst: number; readonly perSecond: number };

export type Rates = {
  /** Changes, by session; what a device kept back and sends in one call is one. */
  readonly writes: Rate;
  /** Wrong codes and passphrases, by address; of codes, by the name that each begins with as well. */
  readonly tries: Rate;
  /** Wrong codes under whatever names, by address. */
  readonly allTries: Rate;
  /** The demo's copies, by address. */
  readonly demo: Rate;
  /** The costly statistics, by session. */
  readonly coefficients: Rate;
};

const minute = 60_000;

export const standardRates: Rates = {
  writes: { burst: 100, perSecond: 20 },
  tries: { burst: 5, perSecond: 5 / 60 },
  allTries: { burst: 20, perSecond: 20 / 60 },
  demo: { burst: 10, perSecond: 1 / 6 },
  coefficients: { burst: 10, perSecond: 1 },
};

type Kind = keyof Rates;
type Door = 'code' | 'passphrase';
/** `name` of the evaluation that a code is for, as typed; empty for a passphrase. */
type Guess = { readonly door: Door; readonly name: string; readonly address: string; readonly now: number };

export type Limits = {
  /** Throws too-many, with the seconds to wait. */
  spend(kind: Kind, key: string, now: number): void;
  /**
   * Runs a try at a secret that could be guessed. Counted before it runs, so that no number of tries at once gets past; a
   * right one is taken back. Throws too-many, with the seconds to wait. What others try elsewhere never counts: a limit on all
   * together would be a door that any stranger can shut.
   */
  guess<T>(guess: Guess, attempt: () => T | Promise<T>): Promise<T>;
  /** Work that takes a lot of memory, one after the other. Throws busy when too many wait. */
  inTurn<T>(work: () => Promise<T>): Promise<T>;
};

type Bucket = { left: number; at: number };

/** Counts in memory: a restart forgets, and a door that cannot be tried is worth no restart. */
export function createLimits(rates: Rates): Limits {
  const buckets = new Map<string, Bucket>();
  const spend = (kind: Kind, key: string, now: number) => {
    const wait = take(bucketOf(buckets, { key: `${kind} ${key}`, rate: rates[kind], now }), rates[kind]);
    if (wait > 0) throw new DomainError('too-many', { seconds: wait });
  };
  return {
    spend,
    guess: async ({ door, name, address, now }, attempt) => {
      const spent: (readonly [Kind, string])[] = [
        ['tries', `${door} ${address} ${name}`],
        ['allTries', `${door} ${address}`],
      ];
      const takeBack = (of: typeof spent) =>
        of.forEach(([kind, key]) => (bucketOf(buckets, { key: `${kind} ${key}`, rate: rates[kind], now }).left += 1));
      spent.forEach(([kind, key], at) => {
        try {
          spend(kind, key, now);
        } catch (error) {
          takeBack(spent.slice(0, at));
          throw error;
        }
      });
      try {
        const won = await attempt();
        takeBack(spent);
        return won;
      } catch (error) {
        if (!(error instanceof DomainError) || error.code !== 'wrong-secret') takeBack(spent);
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
    last = done
      .catch(() => undefined)
      .finally(() => {
        waiting -= 1;
      });
    return done;
  };
}

/** Filled up to now. Full buckets are forgotten once there are many. */
function bucketOf(
  buckets: Map<string, Bucket>,
  { key, rate, now }: { readonly key: string; readonly rate: Rate; readonly now: number },
): Bucket {
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
