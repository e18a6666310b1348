import { parseArgs } from 'node:util';
import { calibrationTargets, missedTargets } from '#lib/reconcile/calibration/calibrationTargets';
import { judgeAgenda, type AgendaVerdict } from '#lib/reconcile/calibration/judgeAgenda';
import {
  judgeBatches,
  type BatchesVerdict,
  type Claims,
  type MeanDifference,
} from '#lib/reconcile/calibration/judgeBatches';
import { judgeLooks, type LooksVerdict } from '#lib/reconcile/calibration/judgeLooks';
import { judgeScenario, type ScenarioVerdict } from '#lib/reconcile/calibration/judgeScenario';
import { lookScenario, scenarios, smallPanel, type Scenario } from '#lib/reconcile/calibration/scenarios';
import { simulationBasedCalibration, type RankCounts } from '#lib/reconcile/calibration/simulationBasedCalibration';
import { pairsProposed } from '#lib/evaluation/decideLook';
import { meritPriors } from '#lib/reconcile/merit/meritPriors';
import { reconcileSettings } from '#lib/reconcile/merit/reconcile';
import { type CliOutput, processOutput, textColumns } from './cliOutput';

/** Never looked at while the model was made. */
const SEED = 80_226;
const WORLD = { puppies: 4, evaluators: 3, oneSided: 3, folded: 2, missing: 0.1 };

/** Of what a whole run consists besides the scenarios; each can be asked for by name. */
const sections = ['looks', 'ranks', 'batches', 'agenda'] as const;
type Section = (typeof sections)[number];
/** Fewer draws than a board uses: thousands of litters, each computed several times. */
const lighter = { ...reconcileSettings, sampling: { points: 100, pairs: 500 } };
const AGENDA_SLOTS = 3;

/**
 * Judges the engine on simulated litters and prints the tables:
 * `calibrate [--litters N] [--worlds N] [--close-calls N] [--agenda-litters N] [--only key,key]`, a key being a scenario or a section.
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
  const table = (rows: readonly (readonly string[])[]) => {
    if (rows.length > 1) textColumns(rows.map((row) => [...row])).forEach(output.answer);
  };
  const judged = asked.scenarios.map((scenario) => judgeScenario(scenario, { litters: asked.litters, seed: SEED }));
  table([scenarioHeading, ...judged.map(scenarioRow)]);
  const mean = judged.reduce((sum, { model }) => sum + model.error, 0) / Math.max(1, judged.length);
  if (judged.length > 0)
    output.answer(
      `Mean calibration error ${mean.toFixed(3)} over ${judged.length} scenarios of ${asked.litters} litters.`,
    );
  const when = <T>(section: Section, judge: () => T[]): T[] => (asked.sections.has(section) ? judge() : []);
  const looks = when('looks', () =>
    [0.5, 1, 2].map((truth) => judgeLooks(lookScenario, { litters: asked.litters, seed: SEED, truth })),
  );
  table([looksHeading, ...looks.map(looksRow)]);
  const ranks = when('ranks', () =>
    asked.worlds > 0 ? simulationBasedCalibration(WORLD, meritPriors, { worlds: asked.worlds, seed: SEED }) : [],
  );
  table([ranksHeading, ...ranks.map(ranksRow)]);
  const batches = when('batches', () => [
    judgeBatches(smallPanel, { closeCalls: asked.closeCalls, seed: SEED, pairs: pairsProposed, settings: lighter }),
  ]);
  table([batchesHeading, ...batches.map(batchesRow)]);
  const agendas = when('agenda', () => [
    judgeAgenda(smallPanel, { litters: asked.agendaLitters, seed: SEED, slots: AGENDA_SLOTS, settings: lighter }),
  ]);
  table([agendaHeading, ...agendas.map(agendaRow)]);
  const missed = missedTargets({ scenarios: judged, ranks, looks, batches, agendas });
  output.answer(missed.length === 0 ? 'Every target is met.' : `Missed: ${missed.join('; ')}.`);
  return missed.length === 0 ? 0 : 1;
}

type CalibrateOptions = {
  readonly litters: number;
  readonly worlds: number;
  readonly closeCalls: number;
  readonly agendaLitters: number;
  readonly scenarios: readonly Scenario[];
  readonly sections: ReadonlySet<Section>;
};

function calibrateOptions(args: readonly string[]): CalibrateOptions | { readonly fault: string } {
  const given = parsedValues(args);
  if ('fault' in given) return given;
  const [litters, worlds, closeCalls, agendaLitters] = [
    whole(given.litters),
    whole(given.worlds),
    whole(given['close-calls']),
    whole(given['agenda-litters']),
  ];
  if (litters === null || litters < 1) return { fault: '--litters takes a whole number of 1 or more.' };
  if (worlds === null) return { fault: '--worlds takes a whole number.' };
  if (closeCalls === null || closeCalls < 1) return { fault: '--close-calls takes a whole number of 1 or more.' };
  if (agendaLitters === null || agendaLitters < 1)
    return { fault: '--agenda-litters takes a whole number of 1 or more.' };
  const only = given.only?.split(',');
  const keys = [...scenarios.map(({ key }) => key), ...sections];
  const unknown = only?.filter((key) => !keys.includes(key)) ?? [];
  if (unknown.length > 0)
    return {
      fault: `No such scenario or section: ${unknown.join(', ')}. Scenarios: ${scenarios.map(({ key }) => key).join(', ')}. Sections: ${sections.join(', ')}.`,
    };
  const wanted = (key: string) => only === undefined || only.includes(key);
  return {
    litters,
    worlds,
    closeCalls,
    agendaLitters,
    scenarios: scenarios.filter(({ key }) => wanted(key)),
    sections: new Set(sections.filter(wanted)),
  };
}

function parsedValues(args: readonly string[]) {
  try {
    const options = {
      litters: { type: 'string', default: '150' },
      worlds: { type: 'string', default: '1000' },
      'close-calls': { type: 'string', default: '5000' },
      'agenda-litters': { type: 'string', default: '4000' },
      only: { type: 'string' },
    } as const;
    return parseArgs({ args: [...args], options }).values;
  } catch (error) {
    if (error instanceof TypeError) return { fault: error.message };
    throw error;
  }
}

function whole(text: string): number | null {
  return /^\d{1,6}$/.test(text) ? Number(text) : null;
}

const scenarioHeading = [
  'scenario',
  'error',
  'right',
  'ceiling',
  'plain',
  'Brier',
  'ceiling',
  'first',
  'ceiling',
  'plain',
  '90% holds',
  'stated: right',
];

function scenarioRow(verdict: ScenarioVerdict): string[] {
  const { model, ceiling, first } = verdict;
  return [
    verdict.scenario.title,
    ...[model.error, model.accuracy, ceiling.accuracy, verdict.plainAccuracy, model.brier, ceiling.brier].map(figure),
    ...[first.model, first.ceiling, first.plain, verdict.coverage].map(figure),
    binsOf(model.bins),
  ];
}

const looksHeading = [
  'second looks, true noise and tie width',
  'error',
  'stated less right',
  'right',
  'before',
  'Brier',
  'before',
  'stated: right',
];

function looksRow({ truth, before, after, excess }: LooksVerdict): string[] {
  const figures = [after.error, excess, after.accuracy, before.accuracy, after.brier, before.brier].map(figure);
  return [`${truth} x the settings`, ...figures, binsOf(after.bins)];
}

const ranksHeading = ['ranks of the truth among 19 draws', `p (above ${calibrationTargets.leastP})`, 'counts'];

function ranksRow({ quantity, pValue, counts }: RankCounts): string[] {
  return [quantity, pValue.toFixed(4), counts.join(' ')];
}

const batchesHeading = [
  'second looks to the stop rule',
  ...['stops', 'settled', 'not settled', 'equal'].flatMap((kind) => [kind, 'claimed', 'known SDs', 'right']),
  'before',
  'chosen',
  'random',
  'difference (95%)',
  'in picks right (95%)',
];

function batchesRow(verdict: BatchesVerdict): string[] {
  const claims = ({ count, claimed, known, right }: Claims) => [
    String(count),
    figure(claimed),
    figure(known),
    figure(right),
  ];
  const interval = ({ value, low, high }: MeanDifference) =>
    `${value.toFixed(4)} (${low.toFixed(4)} to ${high.toFixed(4)})`;
  return [
    `two batches of ${verdict.pairs} pairs at most`,
    ...claims(verdict.stops),
    ...claims(verdict.settled),
    ...claims(verdict.notSettled),
    ...claims(verdict.equal),
    ...[verdict.before, verdict.chosen, verdict.random].map(figure),
    interval(verdict.difference),
    interval(verdict.rightDifference),
  ];
}

const agendaHeading = [
  'agenda, gain of settling',
  'litters',
  'with items',
  'with two or more',
  'first',
  'as stated',
  'picks right',
  'random',
  'as stated',
  'picks right',
  'first : random',
  'leads',
];

function agendaRow({ litters, withItems, withChoice, first, random, ratio, leads }: AgendaVerdict): string[] {
  const counts = [litters, withItems, withChoice].map(String);
  const gains = [first, random].flatMap(({ settled, stated, right }) => [settled, stated, right].map(figure));
  return [
    'three places',
    ...counts,
    ...gains,
    ratio.toFixed(2),
    Object.entries(leads)
      .map(([kind, count]) => `${kind} ${count}`)
      .join(' '),
  ];
}

function figure(value: number): string {
  return value.toFixed(3);
}

function binsOf(bins: ScenarioVerdict['model']['bins']): string {
  return bins.map(({ stated, observed }) => `${stated.toFixed(2)}: ${observed.toFixed(2)}`).join('  ');
}
