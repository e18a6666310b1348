import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { z } from 'zod';

const read = (path: string): unknown => JSON.parse(readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8'));

const floorsSchema = z.strictObject({
  about: z.string(),
  floors: z
    .array(
      z.strictObject({
        package: z.string(),
        least: z.string().regex(/^\d+\.\d+\.\d+$/),
        advisory: z.string().min(10),
        known: z.enum(['read', 'quoted', 'memory']),
      }),
    )
    .min(1),
  unread: z.array(z.string()),
  pinned: z.array(z.string()).min(1),
});
const { floors, pinned } = floorsSchema.parse(read('fixtures/floors.json'));
const lock = z
  .object({ packages: z.record(z.string(), z.object({ version: z.string().optional() })) })
  .parse(read('package-lock.json'));
const { dependencies } = z.object({ dependencies: z.record(z.string(), z.string()) }).parse(read('package.json'));

/** Below zero when the first is older. A pre-release is older than its release. */
function compareVersions(one: string, other: string): number {
  const parts = (version: string) => (version.split('-')[0] ?? '').split('.').map(Number);
  const [first, second] = [parts(one), parts(other)];
  const at = first.findIndex((part, place) => part !== second[place]);
  if (at >= 0) return (first[at] ?? 0) - (second[at] ?? 0);
  return Number(other.includes('-')) - Number(one.includes('-'));
}

const installed = (name: string) =>
  Object.entries(lock.packages).flatMap(([path, { version }]) =>
    path.endsWith(`node_modules/${name}`) && version !== undefined ? [version] : [],
  );

it.each(floors)('BL3: $package is no older than $least ($advisory)', ({ package: name, least }) => {
  const versions = installed(name);
  expect(versions.length).toBeGreaterThan(0);
  expect(versions.filter((version) => compareVersions(version, least) < 0)).toEqual([]);
});

it.each(pinned)('BL3: %s is pinned to one version', (name) => {
  expect(dependencies[name]).toMatch(/^\d+\.\d+\.\d+$/);
  expect(installed(name)).toContain(dependencies[name]);
});

it('BL3: versions are compared as numbers, and a pre-release counts as older', () => {
  expect(compareVersions('16.2.10', '16.2.9')).toBeGreaterThan(0);
  expect(compareVersions('4.2.3', '4.2.3')).toBe(0);
  expect(compareVersions('8.9.0', '8.17.1')).toBeLessThan(0);
  expect(compareVersions('16.2.6-canary.1', '16.2.6')).toBeLessThan(0);
});
