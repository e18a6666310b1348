import { expect, it } from 'vitest';
import { originsOf, ownerLinkLines } from '#server/addresses';

const network = ['192.168.1.20', '10.0.0.5'];
const tls = { cert: '', key: '' };
const origins = (settings: { host?: string; tls?: typeof tls | null; origin?: string | null }, port = 3000) =>
  originsOf({ settings: { host: '0.0.0.0', tls: null, origin: null, ...settings }, port, network });

it('BL9: links name the origin a proxy gives, else the address that is listened on, else this machine and its addresses in the network', () => {
  expect(origins({ origin: 'https://litter.example' })).toEqual(['https://litter.example']);
  expect(origins({})).toEqual(['http://localhost:3000', 'http://192.168.1.20:3000', 'http://10.0.0.5:3000']);
  expect(origins({ host: '::', tls }, 8443)).toEqual([
    'https://localhost:8443',
    'https://192.168.1.20:8443',
    'https://10.0.0.5:8443',
  ]);
  expect(origins({ host: '127.0.0.1' })).toEqual(['http://127.0.0.1:3000']);
  expect(origins({ host: '::1' })).toEqual(['http://[::1]:3000']);
  expect(origins({ host: '192.168.1.20', tls }, 443)).toEqual(['https://192.168.1.20']);
});

it('BL9: the owner link is one link at each origin', () => {
  expect(ownerLinkLines(origins({ host: '127.0.0.1' }), 'token').filter((line) => line.includes('token'))).toEqual([
    'Owner link, good for one use: http://127.0.0.1:3000/join#token',
  ]);
  expect(ownerLinkLines(origins({}), 'token').filter((line) => line.endsWith('/join#token')).length).toBe(3);
});
