// A server that is killed during a full run, and comes back; a server that asks for a token.
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { accessible, answered, desk, launch, leave, picture, settled, type } from './browser';
import { folder, Own } from './spawn';

const demo = 'wrenhollow.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));
afterAll(async () => {
  for (const own of owned) await own.remove();
});

const owned: Own[] = [];
async function serve(env: Record<string, string> = {}): Promise<Own> {
  const own = new Own(folder());
  owned.push(own);
  await own.start(0, [], env);
  return own;
}

const notice = (page: Page) => page.getByText('A full run was cut off.');
const start = (page: Page) => page.getByRole('button', { name: 'Run the blow' }).click();
const blown = (page: Page) => page.locator('.runbar[data-full=true]').waitFor({ timeout: 60_000 });

async function open(page: Page, own: Own): Promise<void> {
  await page.goto(`${own.url}/#/design/${demo}`);
  await page.locator('[data-key]').first().waitFor();
  await settled(page);
}

/** Starts a full run and kills the server in the middle of it; the server comes back where it was. */
async function cut(page: Page, own: Own): Promise<void> {
  await start(page);
  await page.waitForFunction(() => /%/.test(document.querySelector('.runbar .now')?.textContent ?? ''));
  const { port } = own;
  await own.end('SIGKILL');
  await own.start(port);
}

describe('a run that was cut off', () => {
  it('is told, runs again, and is told no more', async () => {
    const own = await serve();
    const { page } = await desk(browser);
    await open(page, own);
    expect(await notice(page).count()).toBe(0);
    await answered(page, () => type(page, 'preform.wall', '2.71 mm'));
    await cut(page, own);
    // The page comes back to its run by itself and hears what became of it.
    await notice(page).waitFor({ timeout: 30_000 });
    expect(await page.locator('.told').textContent()).toContain(
      'the program ended while the run was under way',
    );
    expect(await page.locator('.told').textContent()).not.toContain('another text');
    // One note tells it.
    expect(await page.locator('.told').getByText('the program ended').count()).toBe(1);
    expect(await page.locator('.told .fault').count()).toBe(0);
    await accessible(page, 'cut off', '.told');
    await picture(page, 'run-cut-off');
    // What was typed and not saved is with the run: a fresh page gets it back.
    const later = (await desk(browser)).page;
    await open(later, own);
    await later.getByText('It computed another text than this one').waitFor();
    await later.getByRole('button', { name: 'Run again' }).click();
    await blown(later);
    expect(await later.locator('[data-path="preform.wall"] input').inputValue()).toBe('2.71 mm');
    expect(await notice(later).count()).toBe(0);
    await answered(later, () => later.keyboard.press('Control+Z'));
    expect(await later.locator('[data-path="preform.wall"] input').inputValue()).not.toBe('2.71 mm');
    // After a restart the same input has its result at once.
    await leave(page);
    await own.end('SIGINT');
    await own.start(own.port);
    await open(later, own);
    await later.reload();
    await settled(later);
    expect(await notice(later).count()).toBe(0);
    await answered(later, () => type(later, 'preform.wall', '2.71 mm'));
    await start(later);
    await blown(later);
    await leave(later);
  });

  it('tells at once that the server is gone, and recovers when it is back after a long while', async () => {
    const own = await serve();
    const { page } = await desk(browser);
    await open(page, own);
    await answered(page, () => type(page, 'preform.wall', '2.73 mm'));
    await start(page);
    await page.waitForFunction(() => /%/.test(document.querySelector('.runbar .now')?.textContent ?? ''));
    const { port } = own;
    await own.end('SIGKILL');
    const away = page.locator('.told').getByText('The server does not answer.');
    await away.waitFor({ timeout: 5000 });
    expect(await page.locator('.runbar').textContent()).not.toContain('%');
    await accessible(page, 'server gone in a run', '.told, .runbar');
    await picture(page, 'run-server-gone');
    await page.waitForTimeout(9000); // longer than any patience of a page
    await away.waitFor();
    await own.start(port);
    await notice(page).waitFor({ timeout: 30_000 });
    expect(await away.count()).toBe(0);
    expect(await page.locator('.runbar').getAttribute('data-running')).toBe('false');
    await picture(page, 'run-server-back');
    await page.getByRole('button', { name: 'Run again' }).click();
    await blown(page);
    expect(await notice(page).count()).toBe(0);
    expect(await page.locator('.told .fault').count()).toBe(0);
    // A run that is asked for while there is no server, too.
    await answered(page, () => type(page, 'preform.wall', '2.74 mm'));
    await own.end('SIGKILL');
    await start(page);
    await away.waitFor({ timeout: 5000 });
    await own.start(port);
    await expect.poll(() => away.count(), { timeout: 30_000 }).toBe(0);
    expect(await page.locator('.told .fault').count()).toBe(0);
    await start(page);
    await blown(page);
    await leave(page);
  });

  it('is dismissed', async () => {
    const own = await serve();
    const { page } = await desk(browser);
    await open(page, own);
    await cut(page, own);
    await notice(page).waitFor({ timeout: 30_000 });
    await page.getByRole('button', { name: 'Dismiss' }).click();
    await expect.poll(() => notice(page).count()).toBe(0);
    await page.reload();
    await settled(page);
    expect(await notice(page).count()).toBe(0);
    await leave(page);
  });
});

describe('a server with a token', () => {
  it('asks the browser, and serves the whole page to one that knows it', async () => {
    const token = '3f0c9a51d2b84e77a6105c2e';
    const own = await serve({ COSTREL_TOKEN: token });
    const stranger = (await desk(browser, {}, true)).page;
    await expect(stranger.goto(own.url)).rejects.toThrow(/ERR_INVALID_AUTH_CREDENTIALS/);
    await leave(stranger);
    const { page, faults } = await desk(browser, { httpCredentials: { username: '', password: token } });
    await open(page, own);
    await answered(page, () => type(page, 'preform.wall', '2.75 mm'));
    await start(page);
    await page.waitForFunction(() => /%/.test(document.querySelector('.runbar .now')?.textContent ?? ''));
    expect(faults).toEqual([]);
    await leave(page);
  });
});
