import { expect, it } from 'vitest';
import { spokenLength, spokenNameLength } from '#lib/access/spokenCode';
import { DomainError } from '#lib/errors';
import { codeLife } from '#server/commands/joining';
import { createLimits, standardRates } from '#server/limits';

const wrong = () => {
  throw new DomainError('wrong-secret');
};
const tooMany = (seconds: unknown = expect.any(Number)) => ({ code: 'too-many', details: { seconds } });

it('BL9: a session may change a hundred things at once and twenty a second after that, and is told how long to wait', () => {
  const limits = createLimits(standardRates);
  for (let n = 0; n < 100; n += 1) limits.spend('writes', 'one', 0);
  expect(() => limits.spend('writes', 'one', 0)).toThrow(expect.objectContaining(tooMany(1)));
  limits.spend('writes', 'other', 0);
  for (let n = 0; n < 20; n += 1) limits.spend('writes', 'one', 1000);
  expect(() => limits.spend('writes', 'one', 1000)).toThrow(expect.objectContaining({ code: 'too-many' }));
});

it('BL9: five wrong tries a minute from one address, and a right one costs none', async () => {
  const limits = createLimits(standardRates);
  const guess = { door: 'code', name: 'K7', address: 'here', now: 0 } as const;
  for (let n = 0; n < 50; n += 1) expect(await limits.guess(guess, () => 'in')).toBe('in');
  for (let n = 0; n < 5; n += 1)
    await expect(limits.guess(guess, wrong)).rejects.toMatchObject({ code: 'wrong-secret' });
  await expect(limits.guess(guess, () => 'in')).rejects.toMatchObject(tooMany(12));
  expect(await limits.guess({ ...guess, address: 'elsewhere' }, () => 'in')).toBe('in');
  expect(await limits.guess({ ...guess, now: 12_000 }, () => 'in')).toBe('in');
});

it('BL9: what others try, wherever and how often, keeps nobody waiting', async () => {
  const limits = createLimits(standardRates);
  for (let n = 0; n < 5000; n += 1)
    await limits.guess({ door: 'code', name: 'K7', address: `a${n % 500}`, now: 0 }, wrong).catch(() => undefined);
  for (let n = 0; n < 500; n += 1)
    await limits.guess({ door: 'passphrase', name: '', address: `a${n}`, now: 0 }, wrong).catch(() => undefined);
  for (const door of ['code', 'passphrase'] as const)
    expect(await limits.guess({ door, name: 'K7', address: 'elsewhere', now: 0 }, () => 'in')).toBe('in');
});

it('BL9: whoever guesses at one name from an address keeps nobody waiting who types another there, up to twenty', async () => {
  const limits = createLimits(standardRates);
  const at = (name: string) => ({ door: 'code', name, address: 'here', now: 0 }) as const;
  for (let n = 0; n < 30; n += 1) await limits.guess(at('K7'), wrong).catch(() => undefined);
  expect(await limits.guess(at('M3'), () => 'in')).toBe('in');
  for (const name of ['A', 'B', 'C'])
    for (let n = 0; n < 5; n += 1)
      await expect(limits.guess(at(name), wrong)).rejects.toMatchObject({ code: 'wrong-secret' });
  await expect(limits.guess(at('M3'), () => 'in')).rejects.toMatchObject(tooMany(3));
});

it('BL9: a code of 40 secret bits is not found in its life, by however many addresses one household of networks has', async () => {
  const limits = createLimits(standardRates);
  let tried = 0;
  for (let now = 0; now < codeLife; now += 500) {
    await limits
      .guess({ door: 'code', name: 'K7', address: 'here', now }, () => {
        tried += 1;
        return wrong();
      })
      .catch(() => undefined);
  }
  expect(tried).toBeLessThanOrEqual(55);
  const [networks, codes] = [2 ** 16, 24];
  expect((tried * networks * codes) / 2 ** (5 * (spokenLength - spokenNameLength))).toBeLessThan(1e-4);
});

it('BL9: tries that run at the same time are counted before they end', async () => {
  const limits = createLimits(standardRates);
  let ran = 0;
  const tries = Array.from({ length: 1000 }, () =>
    limits.guess({ door: 'passphrase', name: '', address: 'here', now: 0 }, async () => {
      ran += 1;
      await Promise.resolve();
      return wrong();
    }),
  );
  await Promise.allSettled(tries);
  expect(ran).toBe(5);
});

it('BL9: what failed for another reason is no guess', async () => {
  const limits = createLimits(standardRates);
  const busy = () => {
    throw new DomainError('busy');
  };
  for (let n = 0; n < 30; n += 1)
    await expect(limits.guess({ door: 'code', name: 'K7', address: 'here', now: 0 }, busy)).rejects.toMatchObject({
      code: 'busy',
    });
});

it('BL9: costly work runs one after the other, and who comes fifth is sent away', async () => {
  const limits = createLimits(standardRates);
  let running = 0;
  let most = 0;
  const work = async () => {
    running += 1;
    most = Math.max(most, running);
    await Promise.resolve();
    running -= 1;
  };
  const done = await Promise.allSettled(Array.from({ length: 6 }, () => limits.inTurn(work)));
  expect(most).toBe(1);
  expect(done.map(({ status }) => status)).toEqual([
    'fulfilled',
    'fulfilled',
    'fulfilled',
    'fulfilled',
    'rejected',
    'rejected',
  ]);
});
