import type { Browser, BrowserContextOptions, Page } from '@playwright/test';
import type { TestClient } from './testClient';

export const phone = { width: 390, height: 844 } as const;
export const desk = { width: 1440, height: 900 } as const;

/** A page in a browser of its own, by default a telephone's, that holds this client's session; without a client a stranger's. */
export async function sessionPage(
  browser: Browser,
  client: TestClient | null | undefined,
  options: BrowserContextOptions = {},
): Promise<Page> {
  const context = await browser.newContext({ viewport: phone, ...options });
  const [name, value] = client?.cookie().split('=') ?? [];
  if (client && name && value) await context.addCookies([{ name, value, url: client.url }]);
  return context.newPage();
}

/**
 * For `test.afterEach` of every file of browser tests: a page left open goes on asking the server at every doorbell of the
 * evaluation that the file's next tests use too.
 */
export async function closePages({ browser }: { readonly browser: Browser }): Promise<void> {
  await Promise.all(browser.contexts().map((context) => context.close()));
}
