import { open } from '#db/open';
import { saveLitter, saveWeight } from '#db/queries/litters';
import type { Random } from '../random';
import { saveLitterPuppy } from '../commands/litters';
import { seedSheets } from '../commands/setup';
import { createHub } from '../live/hub';
import type { Runtime } from '../runtime';
import { noBackups } from '../backup/backups';
import type { Reconciler } from '../work/reconciler';
import { isoDay, type Scenario } from './scenario';
import { prepareDay } from './prepareDay';
import { playStory, type StoryClock } from './playStory';

export type TemplateParts = { readonly scenario: Scenario; readonly reconciler: Reconciler; readonly random: Random };

const dayMilliseconds = 86_400_000;

/**
 * A data file with the scenario played up to today through the real commands: one evaluation sealed, to read, and one
 * prepared, to score. Takes a few seconds, most of them in the statistics thread.
 */
export async function buildTemplate({ scenario, reconciler, random }: TemplateParts, now: number): Promise<Buffer> {
  const today = Date.parse(isoDay(now));
  const whelped = today - scenario.open.ageDays * dayMilliseconds;
  const sealedDay = whelped + scenario.sealed.ageDays * dayMilliseconds;
  let at = whelped;
  const clock: StoryClock = { now: () => at, moveTo: (then) => (at = then) };
  const runtime: Runtime = {
    db: open(':memory:'),
    clock,
    random,
    hub: createHub(),
    reconciler: askedOnce(reconciler),
    backups: noBackups,
    demo: null,
  };
  try {
    seedSheets(runtime);
    const litterId = writeLitter(runtime, scenario, whelped);
    clock.moveTo(sealedDay + 9 * 3_600_000);
    const sealed = prepareDay(runtime, { scenario, day: scenario.sealed, litterId, heldOn: isoDay(sealedDay) });
    await playStory(runtime, { scenario, prepared: sealed, clock });
    clock.moveTo(Math.min(now, today + 8 * 3_600_000));
    prepareDay(runtime, { scenario, day: scenario.open, litterId, heldOn: isoDay(today) });
    return runtime.db.$client.serialize();
  } finally {
    runtime.db.$client.close();
  }
}

function writeLitter(runtime: Runtime, { litter, puppies, open: { ageDays } }: Scenario, whelped: number): string {
  const id = runtime.random.id();
  saveLitter(runtime.db, { ...litter, id, whelpedOn: isoDay(whelped), createdAt: whelped });
  for (const { name, sex, collar, secondMark, birthGrams } of puppies) {
    const puppyId = saveLitterPuppy(runtime, {
      litterId: id,
      puppyId: null,
      puppy: { name, sex, collar, secondMark, chipDigits: '' },
    });
    for (let age = 0; age <= ageDays; age += 14) {
      saveWeight(runtime.db, {
        puppyId,
        weighedOn: isoDay(whelped + age * dayMilliseconds),
        grams: Math.round(birthGrams * (1 + 0.16 * age)),
      });
    }
  }
  return id;
}

/** The story asks for its panel's agreement at every pick, and it never changes: once is enough. */
function askedOnce(reconciler: Reconciler): Reconciler {
  const known = new Map<string, ReturnType<Reconciler['agreement']>>();
  return {
    ...reconciler,
    agreement: (panel) => {
      const key = JSON.stringify(panel);
      const answer = known.get(key) ?? reconciler.agreement(panel);
      known.set(key, answer);
      return answer;
    },
  };
}
