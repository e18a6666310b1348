import type { SeededRandom } from '#lib/stats/seededRandom';
import type { EventQueue } from './eventQueue';

export type DiskWorld = {
  readonly queue: EventQueue;
  readonly random: SeededRandom;
  readonly isRough: () => boolean;
  /** For work that relies on its store to give up by itself. */
  readonly answersAlways?: boolean;
};

/** What becomes of one piece of work: when it lands (never, where null), when it is answered and how. */
type Fate = { readonly lands: number | null; readonly answers: number | null; readonly well: boolean };

type Pending = { readonly land: () => void; landed: boolean; lost: boolean };

/** As long as the database of a device is given, twice. */
const givenUpMs = 4000;

/**
 * A device's disk that is slow, fails, fails although the write landed, lands after it was given up, or does not answer
 * at all. What lands, lands in the order it was asked for, as in a browser's database.
 */
export class FakeDisk<Row> {
  readonly rows = new Map<string, Row>();
  private readonly world: DiskWorld;
  private life = 0;
  private lastLanding = 0;
  private pending: Pending[] = [];

  constructor(world: DiskWorld) {
    this.world = world;
  }

  work<T>(land: () => T): Promise<T> {
    const { queue } = this.world;
    const { lands, answers, well } = this.fate();
    const life = this.life;
    return new Promise((resolve, reject) => {
      let value: { readonly of: T } | null = null;
      const one: Pending = { land: () => void (value = { of: land() }), landed: false, lost: lands === null };
      this.pending.push(one);
      const landing = Math.max(queue.now() + (lands ?? 0), this.lastLanding);
      if (lands !== null) {
        this.lastLanding = landing;
        queue.plan(landing - queue.now(), () => this.landNow(one));
      }
      if (answers === null) return;
      queue.plan(Math.max(answers, well ? landing - queue.now() : 0), () => {
        if (life !== this.life) return;
        if (well && value) resolve(value.of);
        else reject(new Error('the disk of this device failed'));
      });
    });
  }

  /** The page dies: what was on its way to the disk lands now or never. */
  crash(landsAll: boolean): void {
    this.life += 1;
    for (const one of this.pending) {
      if (landsAll) this.landNow(one);
      else one.lost = true;
    }
    this.pending = [];
  }

  private landNow(one: Pending): void {
    if (one.landed || one.lost) return;
    one.landed = true;
    one.land();
    this.pending = this.pending.filter((other) => other !== one);
  }

  private fate(): Fate {
    const { random, isRough } = this.world;
    const quick = isRough() ? 5 + random.below(400) : 1 + random.below(10);
    switch (isRough() ? random.below(16) : 15) {
      case 0:
        return { lands: null, answers: quick, well: false };
      case 1:
        return { lands: quick, answers: givenUpMs, well: false };
      case 2:
        return { lands: givenUpMs + random.below(3000), answers: givenUpMs, well: false };
      case 3:
        return {
          lands: random.below(2) === 0 ? null : quick,
          answers: this.world.answersAlways === true ? givenUpMs : null,
          well: false,
        };
      case 4:
      case 5:
        return { lands: 500 + random.below(3400), answers: 4000, well: true };
      default:
        return { lands: quick, answers: quick + random.below(100), well: true };
    }
  }
}
