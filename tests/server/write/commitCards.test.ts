import fc from 'fast-check';
import { expect, it } from 'vitest';
import { cardsHash as onDevice } from '#app/_data/keptPromises';
import { cardsHash as onServer } from '#server/write/commitCards';
import { cards, hex } from '#tests/support/arbitraryCards';

it('BL7: device and server make the same hash of the same cards', () => {
  fc.assert(
    fc.property(hex(32), cards, (nonce, one) => {
      expect(onDevice(nonce, one)).toBe(onServer(nonce, one));
    }),
  );
});
