import type { ReactElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';

/** What a component draws, as text: tags stand for a break, runs of blanks for one. */
export const textOf = (element: ReactElement): string =>
  renderToStaticMarkup(element)
    .replaceAll(/<[^>]*>/g, ' ')
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#x27;', '’')
    .replaceAll('&amp;', '&')
    .replaceAll(/\s+/g, ' ')
    .trim();

/** Every element of a kind that a component draws, as its attributes by name; a bare one is the empty string. */
export function drawnElements(element: ReactElement, tag: string): Readonly<Record<string, string>>[] {
  const found = renderToStaticMarkup(element).matchAll(new RegExp(`<${tag}( [^>]*)?>`, 'g'));
  return [...found].map(([, attributes = '']) =>
    Object.fromEntries(
      [...attributes.matchAll(/ ([\w-]+)(?:="([^"]*)")?/g)].map(([, name = '', value = '']) => [name, value]),
    ),
  );
}
