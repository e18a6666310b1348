import { expect, it } from 'vitest';
import { clientAddress } from '#server/clientAddress';

const from = (remoteAddress: string, forwarded?: string) => ({
  headers: forwarded === undefined ? {} : { 'x-forwarded-for': forwarded },
  socket: { remoteAddress },
});
const address = (
  remoteAddress: string,
  { forwarded, proxy = null }: { forwarded?: string; proxy?: string | null } = {},
) =>
  // A request has more; these two are all that is read.
  clientAddress(from(remoteAddress, forwarded) as Parameters<typeof clientAddress>[0], proxy);

it('BL9: what a stranger writes into X-Forwarded-For counts for nothing', () => {
  expect(address('203.0.113.7', { forwarded: '198.51.100.1' })).toBe('203.0.113.7');
  expect(address('203.0.113.7', { forwarded: '198.51.100.1', proxy: '127.0.0.1' })).toBe('203.0.113.7');
});

it('BL9: from the trusted proxy the last entry counts, which it wrote itself', () => {
  expect(address('::ffff:127.0.0.1', { forwarded: '192.0.2.9, 198.51.100.1', proxy: '127.0.0.1' })).toBe(
    '198.51.100.1',
  );
  expect(address('127.0.0.1', { proxy: '127.0.0.1' })).toBe('127.0.0.1');
});

/** The forms of RFC 4291, section 2.2; the addresses are those of RFC 3849 for documentation. */
it.each([
  ['2001:db8:0:1:0:0:0:7', '2001:db8:0:1::/64'],
  ['2001:db8:0:1::8', '2001:db8:0:1::/64'],
  ['2001:DB8::1:FFFF:0:0:1', '2001:db8:0:1::/64'],
  ['2001:db8:0:2::8', '2001:db8:0:2::/64'],
  ['2001:db8::', '2001:db8:0:0::/64'],
  ['::1', '0:0:0:0::/64'],
  ['fe80::1%eth0', 'fe80:0:0:0::/64'],
  ['64:ff9b::192.0.2.33', '64:ff9b:0:0::/64'],
  ['::ffff:192.0.2.33', '192.0.2.33'],
])('BL9: %s counts as %s', (remote, expected) => {
  expect(address(remote)).toBe(expected);
});
