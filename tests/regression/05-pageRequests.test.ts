import { expect, it } from 'vitest';
import { asksForPage } from '#server/pages/nextPages';

it.each([
  ['POST', '/board'],
  ['PUT', '/'],
  ['OPTIONS', '*'],
  ['TRACE', '/'],
  ['GET', 'http://elsewhere.example/'],
  ['GET', '*'],
  ['GET', undefined],
])('BL2: %s %s is no request for a page, and is never parsed as one', (method, url) => {
  expect(asksForPage({ method, ...(url === undefined ? {} : { url }) })).toBe(false);
});

it.each([
  ['GET', '/'],
  ['HEAD', '/board?id=1'],
  ['GET', '/_next/static/chunks/a.js'],
])('BL2: %s %s is one', (method, url) => {
  expect(asksForPage({ method, url })).toBe(true);
});
