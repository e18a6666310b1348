import { expect, it } from 'vitest';
import { readSettings } from '#server/readSettings';

it.each([
  [{}, 3001],
  [{ PORT: '4000' }, 4001],
  [{ PORT: '0' }, 0],
  [{ PORT: '4000', DEMO_PORT: '5000' }, 5000],
  [{ PORT: '0', DEMO_PORT: '5000' }, 5000],
  [{ DEMO_PORT: 'off' }, null],
  [{ PORT: '0', DEMO_PORT: 'off' }, null],
])('DE1: with %o the demo listens on %s', (env, port) => {
  expect(readSettings({ env: { ...env, NODE_ENV: 'test' }, args: [], folder: '/somewhere' }).demoPort).toBe(port);
});

it('DE1: the data folder is the project’s unless told otherwise; the demo keeps to a folder below it', () => {
  expect(readSettings({ env: { NODE_ENV: 'test' }, args: [], folder: '/somewhere' }).dataFolder).toBe(
    '/somewhere/data',
  );
  expect(
    readSettings({ env: { NODE_ENV: 'test', EVENSTACK_DATA: '/else' }, args: [], folder: '/somewhere' }).dataFolder,
  ).toBe('/else');
});
