import { expect, it } from 'vitest';
import { DomainError } from '#lib/errors';
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
  const guess = { door: 'code', address: 'here', now: 0 } as const;
  for (let n = 0; n < 50; n += 1) expect(await limits.guess(guess, () => 'in')).toBe('in');
  for (let n = 0; n < 5; n += 1) await expect(limits.guess(guess, wrong)).rejects.toMatchObject({ code: 'wrong-secret' });
  await expect(limits.guess(guess, () => 'in')).rejects.toMatchObject(tooMany(12));
  expect(await limits.guess({ ...guess, address: 'elsewhere' }, () => 'in')).toBe('in');
  expect(await limits.guess({ ...guess, now: 12_000 }, () => 'in')).toBe('in');
});

it('BL9: after twenty failures everybody waits ten minutes, at one door only', async () => {
  const limits = createLimits(standardRates);
  const from = (n: number, now = 0) => ({ door: 'code', address: `a${n}`, now }) as const;
  for (let n = 0; n < 20; n += 1) await expect(limits.guess(from(n), wrong)).rejects.toMatchObject({ code: 'wrong-secret' });
  await expect(limits.guess(from(99), () => 'in')).rejects.toMatchObject(tooMany(600));
  expect(await limits.guess({ door: 'passphrase', address: 'a1', now: 0 }, () => 'in')).toBe('in');
  await expect(limits.guess(from(99, 599_000), () => 'in')).rejects.toMatchObject(tooMany(1));
  expect(await limits.guess(from(99, 600_000), () => 'in')).toBe('in');
});

it('BL9: tries that run at the same time are counted before they end', async () => {
  const limits = createLimits(standardRates);
  let ran = 0;
  const tries = Array.from({ length: 1000 }, (_, n) =>
    limits.guess({ door: 'passphrase', address: `a${n}`, now: 0 }, async () => {
      ran += 1;
      await Promise.resolve();
      return wrong();
    }),
  );
  await Promise.allSettled(tries);
  expect(ran).toBe(20);
});

it('BL9: what failed for another reason is no guess', async () => {
  const limits = createLimits(standardRates);
  const busy = () => {
    throw new DomainError('busy');
  };
  for (let n = 0; n < 30; n += 1) await expect(limits.guess({ door: 'code', address: 'here', now: 0 }, busy)).rejects.toMatchObject({ code: 'busy' });
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
  expect(done.map(({ status }) => status)).toEqual(['fulfilled', 'fulfilled', 'fulfilled', 'fulfilled', 'rejected', 'rejected']);
});
