import { describe, expect, it } from 'vitest';
import { drawnScenario } from '#lib/reconcile/calibration/drawnScenario';
import { judgeScenario } from '#lib/reconcile/calibration/judgeScenario';
import { scenarios } from '#lib/reconcile/calibration/scenarios';
import { simulateLitter } from '#lib/reconcile/calibration/simulateLitter';
import { identicalSeats, repeatedShares } from '#lib/reconcile/seats/identicalSeats';
import { meritPriors } from '#lib/reconcile/merit/meritPriors';
import type { Panel } from '#lib/reconcile/panel/panel';
import { reconcile, reconcileSettings } from '#lib/reconcile/merit/reconcile';
import { scorePosterior, type ScorePosterior } from '#lib/reconcile/merit/scorePosterior';
import { varianceDraws } from '#lib/reconcile/merit/varianceDraws';
import { createSeededRandom, seedFromNumbers } from '#lib/stats/seededRandom';
import { fullSize } from '#tests/support/faultSize';
import { questionOf } from './examplePanel';

const light = { ...reconcileSettings, sampling: { points: 60, pairs: 250 } };
const scenarioOf = (key: string) => scenarios.find((one) => one.key === key) ?? expect.fail();
const litters = fullSize ? 40 : 3;

function panelOf(key: string, seed: number): Panel {
  const random = createSeededRandom(seedFromNumbers([515, seed]));
  return simulateLitter(drawnScenario(scenarioOf(key), random), random).panel;
}

/** How sure the order is: the mean chance given to the likelier of two puppies. */
function sureness(panel: Panel, scored = scorePosterior(questionOf(panel), light)): number {
  const chances = Object.values(reconcile(questionOf(panel), light, scored).purposes[0]?.better ?? {})
    .flatMap((row) => Object.values(row))
    .filter((chance) => chance >= 0.5);
  return chances.reduce((sum, chance) => sum + chance, 0) / chances.length;
}

/** The same scores, every seat taken at its word. */
function independent(panel: Panel): ScorePosterior {
  const design = { ...scorePosterior(questionOf(panel), light).design, repeats: panel.evaluators.map(() => 0) };
  return {
    design,
    variances: varianceDraws(design, meritPriors, {
      random: createSeededRandom(design.seed),
      count: light.sampling.points,
    }),
  };
}

const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const panels = (key: string) => Array.from({ length: litters }, (_, seed) => panelOf(key, seed));

describe('seats that repeat one another', () => {
  it.each(['copier', 'followers'])(
    'ST4: %s: the order is less sure than if every seat were taken at its word',
    (key) => {
      const gains = panels(key).map((panel) => sureness(panel) - sureness(panel, independent(panel)));
      expect(Math.max(...gains)).toBeLessThan(0.005);
      expect(mean(gains)).toBeLessThan(fullSize ? -0.02 : -0.005);
    },
  );

  it('ST4: a seat that repeats another in nine cells of ten makes the order hardly surer than it is without it', () => {
    const without = (panel: Panel): Panel => ({
      ...panel,
      scores: panel.scores.filter(({ evaluator }) => evaluator !== 'evaluator2'),
    });
    expect(mean(panels('copier').map((panel) => sureness(panel) - sureness(without(panel))))).toBeLessThan(0.02);
  });

  it('ST4: those who follow one seat are tied to it, up to half of the seats, and nobody else', () => {
    const tied = Array.from({ length: 30 }, (_, seed) => {
      const panel = panelOf('followers', seed);
      return repeatedShares(panel)
        .map((share) => (share === 1 ? 'repeated' : share > 0 ? 'repeats' : 'alone'))
        .join(' ');
    });
    expect(tied.filter((shares) => shares === 'repeated repeats repeats alone alone').length).toBeGreaterThan(20);
    const all = panelOf('plain', 1);
    const same = all.scores.map((score) => ({
      ...score,
      value:
        all.scores.find((one) => one.puppy === score.puppy && one.criterion === score.criterion)?.value ?? score.value,
    }));
    // All four give the same: nobody is more alike than anybody else, and none is tied.
    expect(repeatedShares({ ...all, scores: same })).toEqual([0, 0, 0, 0]);
  });

  it('ST4: the share that is repeated comes out as it was', () => {
    const shares = Array.from({ length: 30 }, (_, seed) =>
      Math.min(...repeatedShares(panelOf('copier', seed)).filter((share) => share > 0)),
    );
    expect(Math.abs(mean(shares) - 0.9)).toBeLessThan(0.03);
  });

  it('ST4: a second pair beyond what is modelled is told as not allowed for', () => {
    const [ordinary = expect.fail()] = scenarioOf('plain').evaluators;
    const evaluators = Array.from({ length: 6 }, (_, at) => ({
      ...ordinary,
      ...(at === 1 || at === 3 ? { copies: { seat: at - 1, share: 0.9 } } : {}),
    }));
    const { panel } = simulateLitter({ ...scenarioOf('plain'), evaluators }, createSeededRandom(9));
    expect(identicalSeats(panel).map(({ modelled }) => modelled)).toEqual([true, false]);
    expect(repeatedShares(panel).filter((share) => share > 0).length).toBe(2);
  });

  it('ST2: neither the order of rows nor of seats changes the numbers of a panel with tied seats', () => {
    const panel = panelOf('copier', 2);
    const turned = { ...panel, evaluators: [...panel.evaluators].reverse(), scores: [...panel.scores].reverse() };
    expect(reconcile(questionOf(turned), light).purposes[0]?.better).toEqual(
      reconcile(questionOf(panel), light).purposes[0]?.better,
    );
  });

  if (fullSize) {
    it.each(['copier', 'followers'])('ST4: %s: stated chances come true', (key) => {
      expect(judgeScenario(scenarioOf(key), { litters: 60, seed: 12, settings: light }).model.error).toBeLessThan(0.05);
    });
  }
});
