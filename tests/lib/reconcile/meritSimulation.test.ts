import { describe, expect, it } from 'vitest';
import { missedTargets } from '#lib/reconcile/calibration/calibrationTargets';
import { judgeLooks } from '#lib/reconcile/calibration/judgeLooks';
import { judgeScenario } from '#lib/reconcile/calibration/judgeScenario';
import { pairCalibration } from '#lib/reconcile/calibration/pairCalibration';
import { lookScenario, scenarios } from '#lib/reconcile/calibration/scenarios';
import { simulationBasedCalibration } from '#lib/reconcile/calibration/simulationBasedCalibration';
import { meritPriors } from '#lib/reconcile/merit/meritPriors';
import { reconcileSettings } from '#lib/reconcile/merit/reconcile';
import { fullSize } from '#tests/support/faultSize';

/**
 * A seeded part of what `npm run calibrate` runs in full: fewer litters, so the margins are those of the smaller number (a share of 30
 * litters' pairs has a standard error of about 0.02, of 10 litters' one of 0.035), never those of the full run.
 */
const size = fullSize
  ? { litters: 60, looked: 30, worlds: 1000, wide: 1 }
  : { litters: 10, looked: 6, worlds: 40, wide: 1.7 };
const nothing = { scenarios: [], ranks: [], looks: [], batches: [], agendas: [] };
const lighter = { ...reconcileSettings, sampling: { points: 100, pairs: 300 } };

describe('pairs right and stated chances on simulated litters', () => {
  it.each(['plain', 'late', 'partial', 'lean'])(
    'ST3: %s: hardly worse than known variances, and stated chances come true',
    (key) => {
      const scenario = scenarios.find((one) => one.key === key);
      if (!scenario) throw new Error(`no scenario ${key}`);
      const { model, ceiling, plainAccuracy } = judgeScenario(scenario, {
        litters: size.litters,
        seed: 4,
        settings: lighter,
      });
      expect(ceiling.accuracy - model.accuracy).toBeLessThan(0.05 * size.wide);
      expect(model.brier - ceiling.brier).toBeLessThan(0.03 * size.wide);
      expect(model.error).toBeLessThan(0.08 * size.wide);
      // What the model is for: where a seat is late, partial or leaning the plain mean falls behind, which ten litters do not show every time.
      if (key !== 'plain') expect(model.accuracy).toBeGreaterThan(plainAccuracy - (fullSize ? 0 : 0.03));
    },
  );

  it('ST3: second looks answered as the settings say make pairs righter, and stated chances stay honest', () => {
    const { before, after, excess } = judgeLooks(
      { ...lookScenario, criteria: 6 },
      { litters: size.looked, seed: 4, truth: 1 },
    );
    expect(after.brier).toBeLessThan(before.brier);
    expect(Math.abs(excess)).toBeLessThan(0.1 * size.wide);
  });
});

describe('simulation-based calibration', () => {
  it('ST3: over worlds drawn from the priors the truth ranks evenly among posterior draws (Talts et al. 2018, 20 bins)', () => {
    const ranks = simulationBasedCalibration(
      { puppies: 3, evaluators: 3, oneSided: 2, folded: 1, missing: 0.1 },
      meritPriors,
      { worlds: size.worlds, seed: 1 },
    );
    expect(ranks.map(({ quantity }) => quantity)).toContain('merit difference');
    for (const { counts } of ranks) expect(counts.reduce((sum, count) => sum + count, 0)).toBe(size.worlds);
    expect(missedTargets({ ...nothing, ranks })).toEqual([]);
  });
});

describe('the measures themselves', () => {
  it('ST3: accuracy, Brier score and calibration error of a small table', () => {
    // Four statements: 0.9 right, 0.9 right, 0.6 wrong, and 0.2, which says 0.8 of the other side, and it was right.
    const stated = [
      { chance: 0.9, right: true },
      { chance: 0.9, right: true },
      { chance: 0.6, right: false },
      { chance: 0.2, right: false },
    ];
    const { accuracy, brier, error } = pairCalibration(stated);
    expect(accuracy).toBe(0.75);
    expect(brier).toBeCloseTo((0.01 + 0.01 + 0.36 + 0.04) / 4, 12);
    expect(error).toBeCloseTo((2 * 0.1 + 0.6 + 0.2) / 4, 12);
  });

  it('ST3: a missed target is said in words', () => {
    expect(missedTargets({ ...nothing, ranks: [{ quantity: 'liking', counts: [], pValue: 0.0004 }] })).toEqual([
      'ranks of liking are uneven, p 0.00040',
    ]);
  });
});
