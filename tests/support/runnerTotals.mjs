/**
 * What a runner's own JSON report says, counted our way: a skipped test is a failed one, and so is a file that never got to
 * its tests.
 *
 * @typedef {{ passed: number, failures: string[] }} Totals `failures` holds one line per failed test
 */

/**
 * @param {{ testResults: { name: string, status: string, message?: string, assertionResults: { status: string, fullName: string }[] }[] }} report vitest's JSON reporter
 * @returns {Totals}
 */
export function vitestTotals(report) {
  const totals = { passed: 0, failures: [] };
  for (const file of report.testResults) {
    const bad = file.assertionResults.filter((test) => test.status !== 'passed');
    totals.passed += file.assertionResults.length - bad.length;
    totals.failures.push(...bad.map((test) => `${test.status}: ${file.name}: ${test.fullName}`));
    if (file.status !== 'passed' && bad.length === 0)
      totals.failures.push(`failed outside its tests: ${file.name}: ${file.message ?? ''}`);
  }
  return totals;
}

const specsIn = (suite) => [...(suite.specs ?? []), ...(suite.suites ?? []).flatMap(specsIn)];

/** Where the trace of a failed test lies, to be opened with `npx playwright show-trace`. */
const traceOf = (test) =>
  (test.results ?? [])
    .flatMap(({ attachments = [] }) => attachments)
    .find(({ name, path }) => name === 'trace' && path !== undefined)?.path;

/**
 * @param {{ suites: object[], errors: { message?: string }[] }} report Playwright's JSON reporter
 * @returns {Totals} a failure's line names its trace
 */
export function playwrightTotals(report) {
  const tests = report.suites
    .flatMap(specsIn)
    .flatMap((spec) =>
      spec.tests.map((test) => ({ status: test.status, name: `${spec.file}: ${spec.title}`, trace: traceOf(test) })),
    );
  const bad = tests.filter((test) => test.status !== 'expected');
  return {
    passed: tests.length - bad.length,
    failures: [
      ...bad.map(
        ({ status, name, trace }) =>
          `${status === 'unexpected' ? 'failed' : status}: ${name}${trace === undefined ? '' : `\n  trace: ${trace}`}`,
      ),
      ...report.errors.map((error) => `failed outside its tests: ${error.message ?? 'no message'}`),
    ],
  };
}

/**
 * Adds what a report cannot know about its own runner.
 *
 * @param {Totals | undefined} totals undefined when the runner left no readable report
 * @param {{ runner: string, code: number, tooLong: boolean }} run
 * @returns {Totals}
 */
export function withRunnersEnd(totals, { runner, code, tooLong }) {
  const { passed, failures } = totals ?? { passed: 0, failures: [] };
  const ending = () => {
    if (tooLong) return [`${runner}: ended because it took too long`];
    if (totals === undefined) return [`${runner}: ended with code ${code} and left no report`];
    if (code !== 0 && failures.length === 0) return [`${runner}: ended with code ${code} though no test failed`];
    if (passed + failures.length === 0) return [`${runner}: ran no test`];
    return [];
  };
  return { passed, failures: [...failures, ...ending()] };
}
