import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';

/** What axe finds wrong with a page, best practice included, or by the rules named: the rule and where; nothing on a sound page. */
export async function axeFaults(page: Page, rules: readonly string[] = []): Promise<string[]> {
  // Our pages have no frames: without the mode that looks into frames no further page is opened for each look.
  const axe = new AxeBuilder({ page }).options({ resultTypes: ['violations'] }).setLegacyMode();
  if (rules.length > 0) axe.withRules([...rules]);
  const { violations } = await axe.analyze();
  return violations.map(
    ({ id, nodes }) =>
      `${id}: ${nodes.map(({ target, html }) => `${target.join(' ')} ${html.slice(0, 120)}`).join(', ')}`,
  );
}

/**
 * The same in both themes. A theme changes colours and nothing else, so all rules are asked in the light and that of
 * contrast again in the dark.
 */
export async function axeFaultsInBothThemes(page: Page): Promise<string[]> {
  await page.emulateMedia({ colorScheme: 'light' });
  const faults = await axeFaults(page);
  await page.emulateMedia({ colorScheme: 'dark' });
  const inTheDark = await axeFaults(page, ['color-contrast']);
  await page.emulateMedia({ colorScheme: 'light' });
  return [...faults, ...inTheDark.map((fault) => `in the dark: ${fault}`)];
}
