import { describe, expect, it } from 'vitest';
import { collarClash } from '#app/litter/collarClash';

const puppy = (name: string, collar: 'blue' | 'red' | 'none', secondMark = '') => ({ name, collar, secondMark });

describe('collarClash', () => {
  it('says nothing while each collar is worn once, or all who share one have a second mark', () => {
    expect(collarClash([puppy('Fern', 'blue'), puppy('Moss', 'red')])).toEqual([]);
    expect(collarClash([puppy('Fern', 'blue', 'blaze'), puppy('Moss', 'blue', 'white chin')])).toEqual([]);
  });

  it('names those who share a collar when one of them has no second mark', () => {
    expect(collarClash([puppy('Fern', 'blue', 'blaze'), puppy('Moss', 'blue', '  ')])).toEqual([
      'Fern and Moss both come with blue collar. Give each a second mark, or they cannot be told apart.',
    ]);
    expect(collarClash([puppy('Fern', 'none'), puppy('Moss', 'none'), puppy('Sorrel', 'none')])).toEqual([
      'Fern, Moss and Sorrel all come with no collar. Give each a second mark, or they cannot be told apart.',
    ]);
    expect(collarClash([puppy('Little Fern', 'blue'), puppy('Moss', 'blue')])[0]).toMatch(
      /^Little Fern and Moss both come/,
    );
  });
});
