import { parseArgs } from 'node:util';
import { calibrationTargets, missedTargets } from '#lib/reconcile/calibration/calibrationTargets';
import { judgeLooks, type LooksVerdict } from '#lib/reconcile/calibration/judgeLooks';
import { judgeScenario, type ScenarioVerdict } from '#lib/reconcile/calibration/judgeScenario';
import { lookScenario, scenarios, type Scenario } from '#lib/reconcile/calibration/scenarios';
import { simulationBasedCalibration, type RankCounts } from '#lib/reconcile/calibration/simulationBasedCalibration';
import { meritPriors } from '#lib/reconcile/meritPriors';
import { type CliOutput, processOutput } from './cliOutput';
import { textColumns } from './textColumns';

const SEED = 20_260;
const WORLD = { puppies: 4, evaluators: 3, oneSided: 3, twoSided: 2, missing: 0.1 };

/**
 * Judges the merit model on simulated litters and prints the table: `calibrate [--litters N] [--worlds N] [--only key,key]`.
 * @returns 0 when every target is met, 1 when one is missed, 2 when the arguments say nothing that can be done.
 */
export function calibrateCommand(args: readonly string[], output: CliOutput = processOutput): Promise<number> {
  return Promise.resolve(calibrate(args, output));
}

function calibrate(args: readonly string[], output: CliOutput): number {
  const asked = calibrateOptions(args);
  if ('fault' in asked) {
    output.complain(asked.fault);
    return 2;
  }
  const verdicts = asked.scenarios.map((scenario) => judgeScenario(scenario, { litters: asked.litters, seed: SEED }));
  textColumns([scenarioHeading, ...verdicts.map(scenarioRow)]).forEach(output.answer);
  const mean = verdicts.reduce((sum, { model }) => sum + model.error, 0) / verdicts.length;
  output.answer(`Mean calibration error ${mean.toFixed(3)} over ${verdicts.length} scenarios of ${asked.litters} litters.`);
  const looks = asked.looks ? [0.5, 1, 2].map((truth) => judgeLooks(lookScenario, { litters: asked.litters, seed: SEED, truth })) : [];
  if (looks.length > 0) textColumns([looksHeading, ...looks.map(looksRow)]).forEach(output.answer);
  const ranks = asked.worlds > 0 ? simulationBasedCalibration(WORLD, meritPriors, { worlds: asked.worlds, seed: SEED }) : [];
  if (ranks.length > 0) textColumns([ranksHeading, ...ranks.map(ranksRow)]).forEach(output.answer);
  const missed = missedTargets(verdicts, ranks, looks);
  output.answer(missed.length === 0 ? 'Every target is met.' : `Missed: ${missed.join('; ')}.`);
  return missed.length === 0 ? 0 : 1;
}

type CalibrateOptions = {
  readonly litters: number;
  readonly worlds: number;
  readonly scenarios: readonly Scenario[];
  /** Whether second looks are judged too: unless only some scenarios were asked for. */
  readonly looks: boolean;
};

function calibrateOptions(args: readonly string[]): CalibrateOptions | { readonly fault: string } {
  const given = parsedValues(args);
  if ('fault' in given) return given;
  const [litters, worlds] = [whole(given.litters), whole(given.worlds)];
  if (litters === null || litters < 1) return { fault: '--litters takes a whole number of 1 or more.' };
  if (worlds === null) return { fault: '--worlds takes a whole number.' };
  const only = given.only?.split(',');
  const unknown = only?.filter((key) => !scenarios.some((scenario) => scenario.key === key)) ?? [];
  if (unknown.length > 0) return { fault: `No such scenario: ${unknown.join(', ')}. Scenarios: ${scenarios.map(({ key }) => key).join(', ')}.` };
  const chosen = scenarios.filter(({ key }) => only === undefined || only.includes(key));
  return { litters, worlds, scenarios: chosen, looks: only === undefined };
}

function parsedValues(args: readonly string[]) {
  try {
    const options = { litters: { type: 'string', default: '150' }, worlds: { type: 'string', default: '1000' }, only: { type: 'string' } } as const;
    return parseArgs({ args: [...args], options }).values;
  } catch (error) {
    if (error instanceof TypeError) return { fault: error.message };
    throw error;
  }
}

function whole(text: string): number | null {
  return /^\d{1,6}$/.test(text) ? Number(text) : null;
}

const scenarioHeading = ['scenario', 'error', 'right', 'ceiling', 'plain', 'Brier', 'ceiling', 'first', 'ceiling', 'plain', '90% holds', 'stated: right'];

function scenarioRow(verdict: ScenarioVerdict): string[] {
  const { model, ceiling, first } = verdict;
  return [
    verdict.scenario.title,
    ...[model.error, model.accuracy, ceiling.accuracy, verdict.plainAccuracy, model.brier, ceiling.brier].map(figure),
    ...[first.model, first.ceiling, first.plain, verdict.coverage].map(figure),
    binsOf(model.bins),
  ];
}

const looksHeading = ['second looks, true noise and tie width', 'error', 'stated less right', 'right', 'before', 'Brier', 'before', 'moved', 'stated: right'];

function looksRow({ truth, before, after, excess, moved }: LooksVerdict): string[] {
  const figures = [after.error, excess, after.accuracy, before.accuracy, after.brier, before.brier, moved].map(figure);
  return [`${truth} x the settings`, ...figures, binsOf(after.bins)];
}

const ranksHeading = ['ranks of the truth among 19 draws', `p (above ${calibrationTargets.leastP})`, 'counts'];

function ranksRow({ quantity, pValue, counts }: RankCounts): string[] {
  return [quantity, pValue.toFixed(4), counts.join(' ')];
}

function figure(value: number): string {
  return value.toFixed(3);
}

function binsOf(bins: ScenarioVerdict['model']['bins']): string {
  return bins.map(({ stated, observed }) => `${stated.toFixed(2)}: ${observed.toFixed(2)}`).join('  ');
}
