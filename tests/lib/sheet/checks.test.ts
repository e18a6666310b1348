import { describe, expect, it } from 'vitest';
import { answerOf } from '#lib/sheet/sheet';
import { checkKeys, checkOutcomes, type CheckKey } from '#lib/sheet/check';
import { checkByKey, checkCatalogue } from '#lib/sheet/checkCatalogue';
import { heldChecks } from '#lib/evaluation/holdsOf';

const check = (key: CheckKey) => {
  const found = checkByKey(key);
  if (!found) throw new Error(`no check ${key}`);
  return found;
};

/** SA1's own list. */
const holding = ['breathing', 'eyes', 'skin', 'gait', 'bite', 'palate', 'testicles', 'navel-and-groin'];

describe('the checks', () => {
  it('SA1: are the eleven, each with its own answers down to a known outcome', () => {
    const asked = [
      'testicles',
      'bite',
      'palate',
      'navel-and-groin',
      'tail',
      'dewclaws',
      'colour-and-coat',
      'breathing',
      'eyes',
      'skin',
      'gait',
    ];
    expect(checkKeys).toEqual(asked);
    expect(checkCatalogue.map(({ key }) => key)).toEqual(asked);
    for (const { key, answers } of checkCatalogue) {
      expect(new Set(answers.map((answer) => answer.key)).size, key).toBe(answers.length);
      expect(new Set(answers.map((answer) => answer.words)).size, key).toBe(answers.length);
      for (const { outcome } of answers) expect(checkOutcomes).toContain(outcome);
      const outcomes = answers.map(({ outcome }) => outcome);
      expect(outcomes, key).toEqual(expect.arrayContaining(['normal', 'watch', 'not-examined']));
    }
    for (const key of ['testicles', 'dewclaws', 'colour-and-coat'] as const) {
      expect(check(key).answers.map(({ outcome }) => outcome)).toContain('does-not-apply');
    }
  });

  it('SA1: every text is within the limits of a sheet and defers to a veterinary surgeon', () => {
    for (const { key, name, answers, help, caution } of checkCatalogue) {
      expect(name.length).toBeLessThanOrEqual(80);
      for (const text of [help, caution, ...answers.map(({ words }) => words)])
        expect(text.length, key).toBeLessThanOrEqual(300);
      expect(caution, key).toMatch(/veterinary surgeon/);
    }
  });

  it('SA1: what is found by touch is not asked of a seat that cannot touch', () => {
    // common practice, no source
    expect(checkCatalogue.filter(({ handsOnly }) => handsOnly).map(({ key }) => key)).toEqual([
      'testicles',
      'palate',
      'navel-and-groin',
      'tail',
      'dewclaws',
    ]);
  });

  it('common practice on bites: scissor asked of most, level may come right, undershot rarely does', () => {
    // common practice, no source
    expect(check('bite').help).toMatch(/Most breeds ask for a scissor bite/);
    expect(['scissor', 'level', 'undershot'].map((answer) => answerOf('bite', answer)?.outcome)).toEqual([
      'normal',
      'watch',
      'not-normal',
    ]);
    // common practice, no source: some breeds ask for an undershot bite
    expect(answerOf('bite', 'as-asked')?.outcome).toBe('normal');
    expect(
      checkCatalogue.flatMap(({ key, answers }) =>
        answers.filter(({ gap }) => gap).map((answer) => `${key} ${answer.key}`),
      ),
    ).toEqual(['bite as-asked', 'bite level', 'bite overshot', 'bite undershot', 'bite wry']);
    expect(answerOf('bite', 'both-felt')).toBeUndefined();
  });
});

describe('holds', () => {
  it('SA1: watch or not normal holds a keep on the eight named checks and on no other', () => {
    for (const { key, answers } of checkCatalogue) {
      for (const { key: answer, outcome } of answers) {
        const held = holding.includes(key) && (outcome === 'watch' || outcome === 'not-normal');
        expect(heldChecks([{ check: key, answer }]), `${key} ${answer}`).toEqual(held ? [key] : []);
      }
    }
  });

  it('SA1: one seat is enough, each check is named once and in catalogue order', () => {
    expect(
      heldChecks([
        { check: 'gait', answer: 'lame' },
        { check: 'bite', answer: 'scissor' },
        { check: 'bite', answer: 'level' },
        { check: 'bite', answer: 'wry' },
        { check: 'tail', answer: 'kink' },
        { check: 'testicles', answer: 'one-felt' },
      ]),
    ).toEqual(['testicles', 'bite', 'gait']);
    expect(heldChecks([])).toEqual([]);
  });

  it('SA1: an answer that does not exist is a defect, never "no hold"', () => {
    expect(() => heldChecks([{ check: 'bite', answer: 'both-felt' }])).toThrow('check bite has no answer both-felt');
  });
});
