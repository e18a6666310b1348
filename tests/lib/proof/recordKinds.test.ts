import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { promisedState } from '#lib/proof/promisedState';
import { bindingsIn, boundNames, recordKinds, withBindings } from '#lib/proof/recordKinds';

const serverFolder = new URL('../../../server/', import.meta.url).pathname;
const sources = readdirSync(serverFolder, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.ts'))
  .map((name) => readFileSync(join(serverFolder, name), 'utf8'));

/** Written by earlier versions alone; their lines are replayed as long as there are data that hold them. */
const olderKinds = ['hold-cleared'];

/** Kinds as they stand in calls of `note` and `appendRecord`, and in the choices between two. */
function kindsWritten(source: string): string[] {
  if (!/\bnote\(|appendRecord\(|kind: 'home-/.test(source)) return [];
  return [...source.matchAll(/'([a-z]+(?:-[a-z]+)*)'/g)].flatMap(([, word]) =>
    word !== undefined && (recordKinds as readonly string[]).includes(word) ? [word] : [],
  );
}

/** What is written as a kind, known or not: the second argument of a note, or the kind of a line. */
function writtenKinds(source: string): string[] {
  const notes = [...source.matchAll(/\bnote\((?:[^,()]|\([^()]*\))+,\s*'([a-z-]+)'/g)];
  const lines = [...source.matchAll(/appendRecord\([^;]*?kind: '([a-z-]+)'/g)];
  return [...notes, ...lines].flatMap(([, kind]) => kind ?? []);
}

it('SC3: every kind of line that the server writes is replayed by the check, and every kind that is replayed is written', () => {
  const written = new Set(sources.flatMap(writtenKinds));
  expect(written.size).toBeGreaterThan(25);
  expect([...written].filter((kind) => !(recordKinds as readonly string[]).includes(kind))).toEqual([]);
  const named = new Set(sources.flatMap(kindsWritten));
  expect(recordKinds.filter((kind) => !named.has(kind))).toEqual(olderKinds);
});

it('SC3: a line of before there was a choice on veterinary answers is replayed as one of today', () => {
  const id = 'a'.repeat(32);
  const kinds = (kind: string) =>
    ['evaluation-created', 'round-opened', 'round-closed', 'round-revealed', kind].map((one, at) => ({
      seq: at + 1,
      evaluationId: id,
      at,
      actor: 'owner',
      kind: one,
      detail: '',
    }));
  const [older, newer] = ['hold-cleared', 'hold-answered'].map((kind) =>
    promisedState(kinds(kind)).evaluations.get(id),
  );
  expect(older?.clearances).toEqual([null]);
  expect(older).toEqual(newer);
});

it('SC3: a kind that no version wrote is told, and so is a line where it could not have been written', () => {
  const id = 'a'.repeat(32);
  const line = (seq: number, kind: string, detail = '') => ({
    seq,
    evaluationId: id,
    at: seq,
    actor: 'owner',
    kind,
    detail,
  });
  expect(promisedState([line(1, 'scores-corrected')]).faults).toHaveLength(1);
  const faultsOf = (...kinds: string[]) =>
    promisedState(kinds.map((kind, at) => line(at + 1, kind)))
      .evaluations.get(id)
      ?.faults.map((fault) => fault.seq);
  expect(faultsOf('evaluation-created', 'round-opened', 'round-closed', 'round-revealed')).toEqual([]);
  expect(faultsOf('evaluation-created', 'round-opened', 'round-revealed')).toEqual([3]);
  expect(faultsOf('evaluation-created', 'round-opened', 'round-closed', 'round-revealed', 'round-reopened')).toEqual([
    5,
  ]);
  expect(faultsOf('evaluation-created', 'sealed')).toEqual([2]);
  // From here on the lines bind, and these carry no hash.
  expect(faultsOf('evaluation-created', 'binding-begun', 'round-opened')).toEqual([2, 3, 3]);
});

it('SC3: what a line binds is read back from behind its words, whatever somebody typed there', () => {
  const hash = fc.stringMatching(/^[0-9a-f]{64}$/);
  const binding = fc.tuple(fc.constantFrom(...boundNames), hash);
  fc.assert(
    fc.property(
      fc.string(),
      fc.array(binding, { minLength: 1, maxLength: 4 }),
      fc.array(binding, { minLength: 1, maxLength: 2 }),
      (typed, bindings, forged) => {
        const words = withBindings(typed, forged);
        expect(bindingsIn(withBindings(words, bindings))).toEqual(bindings);
      },
    ),
  );
  expect(bindingsIn('the pick [decision no hash]')).toEqual([]);
});

it('SC3: an import stands after lines that reveal all of it, once', () => {
  const id = 'a'.repeat(32);
  const faultsOf = (...kinds: string[]) =>
    promisedState(kinds.map((kind, at) => ({ seq: at + 1, evaluationId: id, at, actor: 'owner', kind, detail: '' })))
      .evaluations.get(id)
      ?.faults.map((fault) => fault.seq);
  const revealed = ['evaluation-created', 'round-opened', 'round-closed', 'round-revealed'];
  expect(faultsOf(...revealed, 'imported')).toEqual([]);
  expect(faultsOf(...revealed, 'imported', 'imported')).toEqual([6]);
  expect(faultsOf('evaluation-created', 'imported')).toEqual([2]);
  expect(faultsOf('evaluation-created', 'round-opened', 'round-closed', 'imported')).toEqual([4]);
  expect(faultsOf(...revealed, 'look-opened', 'imported')).toEqual([6]);
});
