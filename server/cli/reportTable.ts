import type { CoefficientResult } from '#lib/stats/coefficient';
import type { Interval, PanelReport } from './panelReport';
import { textColumns } from './cliOutput';

/** A report as text for a terminal: merit first, then what it rests on. Every figure of the JSON answer but `better` and the rank chances below the first. */
export function reportTable(file: string, report: PanelReport): string {
  return [
    file,
    Object.entries(report.panel)
      .map(([what, count]) => `${what} ${count}`)
      .join(', '),
    ...section('Merit: points from the litter mean, 90% interval; plain mean on the scale', meritRows(report)),
    ...section('Close calls', closeCallRows(report)),
    ...section('Evaluators: points, 90% interval', evaluatorRows(report)),
    ...section('Components: variances in squared points', componentRows(report)),
    ...section('Reliability: 95% interval', reliabilityRows(report)),
    ...section('Agreement over the sheet: 95% interval', sheetRows(report)),
    ...Object.entries(report.agreement.byCriterion).flatMap(([criterion, found]) =>
      section(
        `Agreement on ${criterion}: 95% interval`,
        coefficientRows({ alpha: found.alpha, icc: found.icc, '': restOf(found) }),
      ),
    ),
    '',
  ].join('\n');
}

function section(heading: string, rows: readonly (readonly string[])[]): string[] {
  return ['', heading, ...textColumns(rows).map((line) => `  ${line}`)];
}

const places = (value: number, digits = 2): string => value.toFixed(digits);

function interval(found: Interval | CoefficientResult): string {
  if ('undefined' in found) return found.undefined;
  const { value, low, high } = found;
  return low === null || high === null ? places(value) : `${places(value)} (${places(low)} to ${places(high)})`;
}

function meritRows({ merit }: PanelReport): string[][] {
  const rows = merit.map(({ puppy, estimate, low, high, mean, ranks }) => [
    puppy,
    places(estimate),
    `(${places(low)} to ${places(high)})`,
    mean === null ? 'not judged' : places(mean),
    places(ranks[0] ?? 0),
  ]);
  return [['puppy', 'merit', 'interval', 'mean', 'chance of first'], ...rows];
}

function closeCallRows({ closeCalls }: PanelReport): string[][] {
  if (closeCalls.length === 0) return [['none']];
  return closeCalls.map(({ slot, candidates }) => [
    `slot ${slot}`,
    ...candidates.map(({ puppy, probability }) => `${puppy} ${places(probability)}`),
  ]);
}

function evaluatorRows({ evaluators }: PanelReport): string[][] {
  const rows = evaluators.map(({ evaluator, severity, liking, noise }) => [
    evaluator,
    interval(severity),
    interval(liking),
    interval(noise),
  ]);
  return [['evaluator', 'severity', 'liking', 'noise'], ...rows];
}

function componentRows({ components }: PanelReport): string[][] {
  if ('undefined' in components) return [[components.undefined]];
  return Object.entries(components).map(([name, variance]) => [name, places(variance, 3)]);
}

function reliabilityRows({ reliability }: PanelReport): string[][] {
  const rows = reliability.study.map(({ evaluators, relative, absolute }) => [
    String(evaluators),
    interval(relative),
    interval(absolute),
  ]);
  return [['evaluators', 'relative', 'absolute'], ...rows];
}

function sheetRows({ agreement: { sheet } }: PanelReport): string[][] {
  return coefficientRows({ '': { alpha: sheet.alpha }, icc: sheet.icc });
}

function coefficientRows(groups: Readonly<Record<string, Readonly<Record<string, CoefficientResult>>>>): string[][] {
  return Object.entries(groups).flatMap(([group, found]) =>
    Object.entries(found).map(([name, value]) => [`${group} ${name}`.trim(), interval(value)]),
  );
}

function restOf({
  kendallW,
  acOne,
  acTwo,
  percent,
  lightKappa,
  fleissKappa,
}: PanelReport['agreement']['byCriterion'][string]): Record<string, CoefficientResult> {
  return { kendallW, acOne, acTwo, percent, lightKappa, fleissKappa };
}
