import { describe, expect, it } from 'vitest';
import { drawColumn, drawSummary } from '#lib/reconcile/merit/drawEstimate';
import { conditionalPosterior } from '#lib/reconcile/merit/conditionalPosterior';
import { effectsDeviation, effectsDrawSize, effectsTranspose } from '#lib/reconcile/merit/effectsDraw';
import type { JointDraws } from '#lib/reconcile/merit/jointDraws';
import { createLikingPlaces, type LikingPlaces } from '#lib/reconcile/merit/likingPlaces';
import { lookedDraws } from '#lib/reconcile/looks/lookedDraws';
import { answerChance } from '#lib/reconcile/looks/lookLikelihood';
import { lookSettings } from '#lib/reconcile/looks/lookSettings';
import type { LookAnswer } from '#lib/reconcile/panel/panel';
import { meritPriors } from '#lib/reconcile/merit/meritPriors';
import { reconcile, reconcileSettings } from '#lib/reconcile/merit/reconcile';
import { strangerLikingSd } from '#lib/reconcile/merit/rowWriter';
import { scorePosterior, type ScorePosterior } from '#lib/reconcile/merit/scorePosterior';
import { normalQuantile } from '#lib/stats/normalDistribution';
import { createSeededRandom } from '#lib/stats/seededRandom';
import { examplePanel, questionOf } from '../examplePanel';

const panel = examplePanel({ puppies: 5, evaluators: 3, oneSided: 5, twoSided: 1, missing: 0.1, seed: 2 });
const question = questionOf(panel);
const scored = scorePosterior(question, reconcileSettings);
const order = (reconcile(question, reconcileSettings, scored).purposes[0]?.merit ?? []).map(({ puppy }) => puppy);
const [first = '', second = '', third = ''] = order;
const last = order.at(-1) ?? '';

function look(evaluator: string, pair: readonly [string, string], choice: LookAnswer['choice'] = 'first'): LookAnswer {
  return { evaluator, purpose: 'show', first: pair[0], second: pair[1], choice };
}

function folded(looks: readonly LookAnswer[]) {
  const answer = reconcile({ ...question, looks }, reconcileSettings, scored);
  const merit = answer.purposes[0]?.merit ?? [];
  return {
    looks: answer.looks,
    better: (a: string, b: string) => answer.purposes[0]?.better[a]?.[b] ?? NaN,
    of: (puppy: string) => merit.find((one) => one.puppy === puppy) ?? { estimate: NaN, sd: NaN },
  };
}

describe('one answer', () => {
  it('ST3: the three chances sum to one, mirror each other, and match the normal table', () => {
    for (const gap of [-3, -0.4, 0, 0.1, 2, 40]) {
      const chance = (choice: LookAnswer['choice'], at = gap) => answerChance(choice, at, lookSettings);
      expect(chance('first') + chance('second') + chance('tie')).toBeCloseTo(1, 12);
      expect(chance('first')).toBeCloseTo(chance('second', -gap), 14);
    }
    // Φ(1) = 0.8413447 (table of the normal distribution): gap 0.95, tie half-width 0.25, noise SD 0.7.
    expect(answerChance('first', 0.95, lookSettings)).toBeCloseTo(0.8413447461, 9);
  });
});

describe('looks folded into the scores', () => {
  it('ST3: no look leaves every draw alike; a look moves the pair the way it was answered', () => {
    const before = folded([]);
    expect(before.looks).toEqual({ answers: 0 });
    const after = folded([look('seat1', [second, first])]);
    expect(after.better(second, first)).toBeGreaterThan(before.better(second, first) + 0.02);
    expect(after.looks.answers).toBe(1);
    const turned = folded([look('seat1', [first, second], 'second')]);
    expect(turned.better(second, first)).toBeCloseTo(after.better(second, first), 12);
  });

  it('ST3: a tie pulls two puppies together', () => {
    const [before, after] = [
      folded([]),
      folded(['seat1', 'seat2', 'seat3'].map((seat) => look(seat, [first, last], 'tie'))),
    ];
    expect(after.of(first).estimate - after.of(last).estimate).toBeLessThan(
      before.of(first).estimate - before.of(last).estimate,
    );
  });

  it('ST3: a seat that has not scored the pair weighs more than one whose liking the scores already hold', () => {
    const scores = panel.scores.filter(
      ({ evaluator, puppy }) => evaluator !== 'seat3' || (puppy !== first && puppy !== second),
    );
    const moved = (seat: string) => {
      const run = (looks: readonly LookAnswer[]) =>
        reconcile({ ...questionOf({ ...panel, scores }), looks }).purposes[0]?.better[second]?.[first] ?? NaN;
      return run([look(seat, [second, first])]) - run([]);
    };
    const favours = (seat: string) => {
      const total = (puppy: string) =>
        scores
          .filter((score) => score.evaluator === seat && score.puppy === puppy)
          .reduce((sum, { value }) => sum + value, 0);
      return total(second) - total(first);
    };
    // Of the two seats that scored the pair, the one whose scores favour the answer most: its look is the least news.
    const expectedAnswer = ['seat1', 'seat2'].sort((a, b) => favours(b) - favours(a))[0] ?? '';
    expect(moved('seat3')).toBeGreaterThan(moved(expectedAnswer));
  });

  it('ST2: the order of the answers does not matter', () => {
    const looks = [
      look('seat1', [second, first]),
      look('seat2', [first, third], 'tie'),
      look('stranger', [third, first]),
    ];
    expect(folded([...looks].reverse()).of(first)).toEqual(folded(looks).of(first));
  });

  it('ST1: a seat that scored nothing, and a panel without scores, take looks too', () => {
    const empty = { ...panel, scores: [] };
    const answer = reconcile({
      ...questionOf(empty),
      looks: [look('stranger', [first, second]), look('seat1', [first, second])],
    });
    expect(answer.purposes[0]?.better[first]?.[second]).toBeGreaterThan(0.6);
    expect(answer.purposes[0]?.merit.every(({ estimate }) => Number.isFinite(estimate))).toBe(true);
  });
});

describe('given the SDs', () => {
  const [likeliest] = [...scored.variances.points].sort((a, b) => b.share - a.share);
  if (!likeliest) throw new Error('no value of the SDs');
  const { posterior } = likeliest;
  const { design } = scored;
  const only: ScorePosterior = { design, variances: { points: [{ posterior, share: 1 }], effective: 1 } };
  const asked = (looks: readonly LookAnswer[], places: LikingPlaces, pairs: number) =>
    lookedDraws(
      only,
      { purposes: question.purposes, looks, watched: [], places },
      { ...reconcileSettings, sampling: { pairs } },
    ).draws;
  const places = (...names: readonly string[]) =>
    design.puppies.flatMap((puppy, at) => (names.includes(puppy) ? [at] : []));

  it.each([[], [1, 0.7]])(
    'ST3: likings and merits are read off the standard normals by rows that are the transpose of the draw; repeating: %s %s',
    (...repeated) => {
      const tied = { ...design, repeats: design.seats.map((_, at) => repeated[at] ?? 0) };
      const given = conditionalPosterior(tied, meritPriors)({ ...posterior.sds, noiseRepeated: 0.6 });
      const random = createSeededRandom(3);
      const draw = (length: number) => Float64Array.from({ length }, () => random.normal());
      const form = {
        liking: draw(design.pairs.puppies.length),
        standing: draw(design.criteria.length * design.puppies.length),
      };
      const row = effectsTranspose(tied, given, form);
      for (let tried = 0; tried < 5; tried += 1) {
        const z = draw(effectsDrawSize(tied));
        const { liking, standing } = effectsDeviation(tied, given, z);
        const read =
          liking.reduce((sum, value, at) => sum + value * (form.liking[at] ?? NaN), 0) +
          standing.reduce((sum, value, at) => sum + value * (form.standing[at] ?? NaN), 0);
        expect(row.reduce((sum, value, at) => sum + value * (z[at] ?? NaN), 0)).toBeCloseTo(read, 9);
      }
    },
  );

  it('ST3: draws moved to the answers agree with many draws of the scores weighed by how likely each makes the answers', () => {
    const mild = [
      look('seat1', [second, first]),
      look('stranger', [third, first]),
      look('seat2', [last, first], 'tie'),
    ];
    const [plan, moved] = [createLikingPlaces(design), createLikingPlaces(design)];
    const seenBy = mild.map((one) => ({
      ...one,
      at: [one.first, one.second].map((name) => ({
        puppy: places(name)[0] ?? -1,
        liking: plan.placeOf(one.evaluator, places(name)[0] ?? -1),
      })),
    }));
    const scoresAlone = asked([], plan, 20_000);
    const width = plan.likings.length;
    const weights = Float64Array.from({ length: scoresAlone.count }, (_, row) =>
      seenBy.reduce((product, { at: [one, other], choice }) => {
        const seen = (side: typeof one) =>
          (scoresAlone.merits[0]?.[row * design.puppies.length + (side?.puppy ?? -1)] ?? NaN) +
          (scoresAlone.lookLikings[row * width + (side?.liking ?? -1)] ?? NaN);
        return product * answerChance(choice, seen(one) - seen(other), lookSettings);
      }, 1),
    );
    const looked = asked(mild, moved, 4000);
    const even = new Float64Array(looked.count).fill(1);
    for (const puppy of design.puppies) {
      const [at = -1] = places(puppy);
      const column = (draws: JointDraws) =>
        drawColumn(draws.merits[0] ?? new Float64Array(0), design.puppies.length, at);
      const [exact, drawn] = [drawSummary(column(scoresAlone), weights), drawSummary(column(looked), even)];
      expect(Math.abs(drawn.value - exact.value), puppy).toBeLessThan(0.06 * exact.sd);
      expect(drawn.sd / exact.sd, puppy).toBeCloseTo(1, 1);
    }
  });

  it('ST3: a stranger who says the contrary of the scores ten times over moves the chance as far as quadrature over merit and its liking does', () => {
    const answers = Array.from({ length: 10 }, () => look('stranger', [last, first]));
    const [likings, plan] = [createLikingPlaces(design), createLikingPlaces(design)];
    const gaps = (draws: JointDraws) => {
      const [one = -1, other = -1] = [places(last)[0], places(first)[0]];
      return Array.from(
        { length: draws.count },
        (_, row) =>
          (draws.merits[0]?.[row * design.puppies.length + one] ?? NaN) -
          (draws.merits[0]?.[row * design.puppies.length + other] ?? NaN),
      );
    };
    const scoresAlone = gaps(asked([], likings, 20_000));
    const middle = scoresAlone.reduce((sum, value) => sum + value, 0) / scoresAlone.length;
    const sd = Math.sqrt(scoresAlone.reduce((sum, value) => sum + (value - middle) ** 2, 0) / scoresAlone.length);
    // The stranger's liking SD is drawn from the panel's distribution; fifteen evenly likely values of it, each in turn.
    let [above, all] = [0, 0];
    for (let quantile = 0; quantile < 15; quantile += 1) {
      const liking =
        Math.SQRT2 * strangerLikingSd(posterior.sds, reconcileSettings.priors, normalQuantile((quantile + 0.5) / 15));
      let [aboveHere, here] = [0, 0];
      for (let m = -40; m <= 40; m += 1)
        for (let l = -40; l <= 40; l += 1) {
          const merit = middle + (sd * m) / 8;
          const weight =
            Math.exp(-((m / 8) ** 2 + (l / 8) ** 2) / 2) *
            answerChance('first', merit + (liking * l) / 8, lookSettings) ** 10;
          here += weight;
          if (merit > 0) aboveHere += weight;
        }
      // Each value of an SD keeps its share: looks do not move it.
      above += aboveHere / here;
      all += 1;
    }
    const moved = gaps(asked(answers, plan, 4000));
    expect(scoresAlone.filter((gap) => gap > 0).length / scoresAlone.length).toBeLessThan(0.2);
    expect(Math.abs(moved.filter((gap) => gap > 0).length / moved.length - above / all)).toBeLessThan(0.03);
  });
});

describe('answers against the scores', () => {
  it('ST3: where all who look, newcomer included, see the last as the better of each other, twice over, it comes out ahead of the first', () => {
    const stubborn = ['seat1', 'seat2', 'seat3', 'stranger'].flatMap((seat) =>
      order.slice(0, -1).flatMap((puppy) => [look(seat, [last, puppy]), look(seat, [last, puppy])]),
    );
    const [answer, before] = [folded(stubborn), folded([])];
    expect(before.better(last, first)).toBeLessThan(0.2);
    expect(answer.better(last, first)).toBeGreaterThan(0.75);
  });
});
