import { expect, type Page } from '@playwright/test';

export type KeyOf = (question: string) => string;

/** Presses one key for every question of the puppy on screen, and "Next" after each, until the puppy is done. */
export async function scorePuppy(page: Page, puppy: string, keyOf: KeyOf): Promise<void> {
  await expect(page.getByRole('heading', { name: puppy })).toBeVisible();
  for (let question = 0; question < 60; question += 1) {
    const go = page.getByRole('button', { name: /^(Next: |Done with )/ });
    if (!(await go.isVisible())) return;
    const group = page.getByRole('group').last();
    const wanted = keyOf((await group.getAttribute('aria-label')) ?? '');
    const key = group.locator(`[data-key="${wanted}"]`);
    const first = group.getByRole('button').first();
    await ((await key.count()) > 0 ? key : first).click();
    const words = await go.innerText();
    await go.click();
    if (words.startsWith('Done with')) return;
  }
  throw new Error('this puppy has no end');
}

/** Opens the card's last page. */
export async function toCard(page: Page): Promise<void> {
  const button = page.getByRole('button', { name: 'Your card', exact: true });
  await button.first().click();
  await expect(page.getByRole('heading', { name: 'Your card', exact: true })).toBeVisible();
}

export async function lockCard(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Lock …' }).click();
  await page.getByRole('button', { name: 'Yes, lock my card' }).click();
}
