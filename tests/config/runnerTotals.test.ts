import { describe, expect, it } from 'vitest';
import { playwrightTotals, vitestTotals, withRunnersEnd } from '../support/runnerTotals.mjs';

describe('the totals behind the last line of npm test', () => {
  it('count a skipped or pending unit test as failed, by name', () => {
    const totals = vitestTotals({
      testResults: [
        {
          name: 'a.test.ts',
          status: 'passed',
          assertionResults: [
            { status: 'passed', fullName: 'one' },
            { status: 'skipped', fullName: 'two' },
            { status: 'todo', fullName: 'three' },
          ],
        },
      ],
    });
    expect(totals).toEqual({ passed: 1, failures: ['skipped: a.test.ts: two', 'todo: a.test.ts: three'] });
  });

  it('count a file that failed before its tests as one failure', () => {
    const totals = vitestTotals({
      testResults: [{ name: 'a.test.ts', status: 'failed', message: 'no such module', assertionResults: [] }],
    });
    expect(totals).toEqual({ passed: 0, failures: ['failed outside its tests: a.test.ts: no such module'] });
  });

  it('count a failed unit test once', () => {
    const totals = vitestTotals({
      testResults: [
        { name: 'a.test.ts', status: 'failed', message: '', assertionResults: [{ status: 'failed', fullName: 'one' }] },
      ],
    });
    expect(totals).toEqual({ passed: 0, failures: ['failed: a.test.ts: one'] });
  });

  it('find browser tests in nested suites and take nothing but the expected for passed', () => {
    const spec = (title: string, status: string) => ({ file: 'day.spec.ts', title, tests: [{ status }] });
    const totals = playwrightTotals({
      suites: [
        {
          specs: [spec('one', 'expected')],
          suites: [{ specs: [spec('two', 'flaky'), spec('three', 'skipped'), spec('four', 'unexpected')] }],
        },
      ],
      errors: [{ message: 'no browser' }],
    });
    expect(totals).toEqual({
      passed: 1,
      failures: [
        'flaky: day.spec.ts: two',
        'skipped: day.spec.ts: three',
        'failed: day.spec.ts: four',
        'failed outside its tests: no browser',
      ],
    });
  });

  it('name the trace of a failed browser test', () => {
    const attachments = [
      { name: 'screenshot', path: '/kept/a.png' },
      { name: 'trace', path: '/kept/trace.zip' },
    ];
    const tests = [{ status: 'unexpected', results: [{ attachments }] }];
    expect(
      playwrightTotals({ suites: [{ specs: [{ file: 'day.spec.ts', title: 'one', tests }] }], errors: [] }),
    ).toEqual({
      passed: 0,
      failures: ['failed: day.spec.ts: one\n  trace: /kept/trace.zip'],
    });
  });

  it.each([
    { what: 'a runner without a report', totals: undefined, run: { code: 1, tooLong: false }, says: 'left no report' },
    {
      what: 'a runner that ran no test',
      totals: { passed: 0, failures: [] },
      run: { code: 0, tooLong: false },
      says: 'ran no test',
    },
    {
      what: 'a runner that failed with every test passed',
      totals: { passed: 3, failures: [] },
      run: { code: 1, tooLong: false },
      says: 'though no test failed',
    },
    {
      what: 'a runner that had to be ended',
      totals: { passed: 3, failures: [] },
      run: { code: -1, tooLong: true },
      says: 'took too long',
    },
  ])('count $what as failed', ({ totals, run, says }) => {
    const counted = withRunnersEnd(totals, { runner: 'runner', ...run });
    expect(counted.failures).toHaveLength(1);
    expect(counted.failures[0]).toContain(says);
  });

  it('leave an ordinary ending alone', () => {
    expect(withRunnersEnd({ passed: 3, failures: [] }, { runner: 'runner', code: 0, tooLong: false })).toEqual({
      passed: 3,
      failures: [],
    });
    expect(withRunnersEnd({ passed: 3, failures: ['one'] }, { runner: 'runner', code: 1, tooLong: false })).toEqual({
      passed: 3,
      failures: ['one'],
    });
  });
});
