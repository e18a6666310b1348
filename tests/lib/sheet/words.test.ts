import { describe, expect, it } from 'vitest';
import { cautions, setUpSteps } from '#lib/sheet/cautions';
import { checkCatalogue } from '#lib/sheet/checkCatalogue';
import { fullSheet } from '#lib/sheet/shippedSheets';

/** Every word the sheet can put on a screen. */
function texts(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(texts) : [];
}
const all = texts([fullSheet, checkCatalogue, cautions, setUpSteps]);

describe('words', () => {
  it('SA3: state no age in law', () => {
    expect(all.length).toBeGreaterThan(300);
    for (const text of all) {
      if (/\b(law|legal\w*|sold|sell|travel)\b/i.test(text))
        expect(text).not.toMatch(/\d|\b(seven|eight|nine|ten|twelve)\b|week|month/i);
    }
    expect(cautions['local-law'].text).toMatch(/Nothing here says what is allowed/);
  });

  it('SA3: give no medical verdict and promise nothing', () => {
    for (const text of all) {
      expect(text).not.toMatch(
        /\b(fail(ed|ure|s)?|pass(ed|es)?|diagnos\w*|cryptorchid\w*|monorchid\w*|hernia\w*|cleft|entropion|ectropion|dysplasia|healthy|unhealthy|guarantee\w*|champion|show potential|reject\w*|worthless)\b/i,
      );
    }
  });

  it('SA3: the cautions are the usual ones, short enough for a phone', () => {
    expect(Object.keys(cautions)).toEqual([
      'handling',
      'hygiene',
      'not-veterinary',
      'hereditary',
      'extremes',
      'local-law',
      'warmth-and-rest',
      'fear',
      'early-days',
      'worth',
      'privacy',
    ]);
    for (const { title, text } of Object.values(cautions)) {
      expect(title.length).toBeLessThanOrEqual(40);
      expect(text.length).toBeLessThanOrEqual(300);
    }
    expect(cautions['not-veterinary'].text).toMatch(/veterinary surgeon/);
  });

  it('the set-up puts the front feet down first, parallel', () => {
    // common practice, no source
    const front = setUpSteps.findIndex((step) => /^Front feet first.*parallel/.test(step));
    const rear = setUpSteps.findIndex((step) => /rear/.test(step));
    expect(front).toBeGreaterThan(-1);
    expect(front).toBeLessThan(rear);
  });
});
