// The states that are not the fair-weather one: empty, loading, broken, away.
import type { Browser } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  accessible,
  address,
  answered,
  desk,
  field,
  focused,
  launch,
  leave,
  open,
  picture,
  settled,
  type,
  value,
} from './browser';

const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

describe('states', () => {
  it('an empty folder says how to begin', async () => {
    const { page, faults } = await desk(browser);
    await page.route('**/api/designs', (r) => r.fulfill({ json: { designs: [] } }));
    await page.goto(address('/'));
    await page.getByText('No design in this folder yet.').waitFor();
    expect(await page.locator('pre').textContent()).toBe('costrel new my.yaml --class csd-500');
    await accessible(page, 'empty folder');
    await picture(page, 'state-empty');
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('very long names keep their place', async () => {
    const { page, faults } = await desk(browser);
    const long = 'A very long name for a design that somebody wrote without thinking of the page '.repeat(4);
    await page.route('**/api/designs', (r) =>
      r.fulfill({
        json: {
          designs: [{ name: 'x'.repeat(180), title: long, modified: '2026-01-02T03:04:05Z', version: '1' }],
        },
      }),
    );
    await page.goto(address('/'));
    await page.locator('tbody tr').waitFor();
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(1280);
    await accessible(page, 'long names in the list');
    // What is cut is reached with the keyboard, and stands there in full.
    const whole = page.locator('.whole');
    for (const [at, text] of [
      ['tbody th a', long],
      ['tbody .file span', 'x'.repeat(180)],
    ] as const) {
      await page.keyboard.press('Tab'); // the focus is seen as that of a key
      for (let i = 0; i < 20 && !(await page.locator(`${at}:focus`).count()); i++)
        await page.keyboard.press('Tab');
      expect((await whole.textContent())?.trim()).toBe(text.trim());
      expect(await page.locator(at).getAttribute('title')).toBe(text);
      const box = (await whole.boundingBox())!;
      expect(box.x).toBeGreaterThanOrEqual(0);
      expect(box.x + box.width).toBeLessThanOrEqual(1280);
    }
    await accessible(page, 'a name in full');
    await picture(page, 'state-long-name-whole');
    await page.keyboard.press('Escape');
    expect(await whole.count()).toBe(0);
    await page.route('**/api/check', async (r) => {
      const answer = await r.fetch();
      const body = (await answer.json()) as { board: { design: { name: string } } };
      body.board.design.name = long;
      await r.fulfill({ response: answer, json: body });
    });
    await open(page, demo);
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(1280);
    await picture(page, 'state-long-name');
    for (const at of ['.masthead h1, header h1', 'dd.title']) {
      const name = page.locator(at).first();
      expect(await name.getAttribute('tabindex')).toBe('0');
      expect(await name.getAttribute('title')).toContain(long.trim().slice(0, 200));
    }
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('a copy with the longest title and a long file name keeps its dialog', async () => {
    const { page, faults } = await desk(browser);
    const file = `${'x'.repeat(180)}.yaml`;
    await page.route('**/api/designs', (r) =>
      r.fulfill({
        json: {
          designs: [{ name: file, title: 'A design', modified: '2026-01-02T03:04:05Z', version: '1' }],
        },
      }),
    );
    await page.goto(address('/'));
    await page.getByRole('button', { name: /Duplicate/ }).click();
    const dialog = page.getByRole('dialog');
    const title = dialog.getByRole('textbox', { name: 'Name of the copy' });
    await title.fill('W'.repeat(130));
    expect((await title.inputValue()).length).toBe(120);
    await dialog.getByRole('textbox', { name: 'File', exact: true }).fill('y'.repeat(250));
    await dialog.getByRole('button', { name: 'Duplicate' }).click();
    await dialog.getByRole('alert').waitFor();
    const over = await dialog.evaluate((d) =>
      [d, ...d.querySelectorAll('*')]
        .filter((e) => {
          const box = e.getBoundingClientRect();
          return (
            box.right > d.getBoundingClientRect().right + 1 ||
            (!e.matches('input') && e.scrollWidth > e.clientWidth + 1 && e.clientWidth > 0)
          );
        })
        .map((e) => e.outerHTML.slice(0, 80)),
    );
    expect(over).toEqual([]);
    await accessible(page, 'copy of a long name', 'dialog[open]');
    await picture(page, 'state-long-copy');
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('a design under way says so', async () => {
    const { page } = await desk(browser);
    let release = (): void => undefined;
    const gate = new Promise<void>((resolve) => (release = resolve));
    await page.route(`**/api/designs/${demo}`, async (r) => {
      await gate;
      await r.continue();
    });
    await page.goto(address(`/design/${demo}`));
    await page.getByText(`Reading ${demo}…`).waitFor();
    await accessible(page, 'loading');
    await picture(page, 'state-loading');
    release();
    await page.locator('[data-key]').first().waitFor();
    await leave(page);
  });

  it('a design that is not there leads back to the list', async () => {
    const { page } = await desk(browser);
    await page.goto(address('/design/no-such-design'));
    await page.getByText('There is no design named no-such-design').waitFor();
    await accessible(page, 'missing');
    await picture(page, 'state-missing');
    // Whatever the way, the focus is on the heading of what came, never nowhere.
    const head = (text: RegExp) =>
      expect.poll(() => page.evaluate(() => document.activeElement?.textContent ?? '')).toMatch(text);
    await page.getByRole('link', { name: 'Back to the list' }).press('Enter');
    await page.locator('tbody tr').first().waitFor();
    await head(/^Workbench for/);
    await page.locator(`a[href="#/design/${demo}"]`).press('Enter');
    await head(/^Sorrel Lime/);
    await page.goBack();
    await head(/^Workbench for/);
    await page.locator('tbody tr').first().waitFor();
    await page.keyboard.press('Control+K');
    await page.getByRole('combobox', { name: /What do you want/ }).waitFor();
    await page.keyboard.type('New design');
    await page.getByRole('option', { name: 'New design' }).first().waitFor();
    await page.keyboard.press('Enter');
    await page.getByLabel('Name of the design').waitFor();
    await page.keyboard.press('Escape');
    await expect.poll(() => page.evaluate(() => document.activeElement?.tagName)).not.toBe('BODY');
    await page.goBack();
    await leave(page);
  });

  it('a broken file shows place, excerpt and what was expected', async () => {
    const { page, faults } = await desk(browser);
    await page.route(`**/api/designs/${demo}`, async (r) => {
      const answer = await r.fetch();
      const body = (await answer.json()) as { text: string };
      body.text = body.text.replace('preform:', 'prefrom:');
      await r.fulfill({ response: answer, json: body });
    });
    await page.goto(address(`/design/${demo}`));
    const problems = page.locator('.problems');
    await problems.waitFor();
    const text = (await problems.textContent()) ?? '';
    expect(text).toContain('cannot be computed');
    expect(text).toContain('prefrom');
    expect(text).toMatch(/line \d+, column \d+/);
    await accessible(page, 'broken file');
    await picture(page, 'state-broken');
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('a value that breaks the design keeps the last board, marked stale', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    const before = await value(page, 'preform.mass');
    // Each value alone is usable; together they are not: the hot lane colder than the store.
    await answered(page, () => type(page, 'climate.hot', '10 °C'));
    expect(await page.locator('#board').getAttribute('data-stale')).toBe('true');
    expect(await page.locator('.problems').textContent()).toContain('from before this change');
    expect(await value(page, 'preform.mass')).toBe(before);
    expect(await field(page, 'climate.hot').getAttribute('aria-invalid')).toBe('true');
    await accessible(page, 'unusable change');
    await picture(page, 'state-unusable');
    await answered(page, () => page.keyboard.press('Control+Z'));
    expect(await page.locator('.problems').count()).toBe(0);
    expect(await page.locator('#board').getAttribute('data-stale')).toBe('false');
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('a slow answer leaves the old values visibly stale; the newest change wins', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    let slow = true;
    await page.route('**/api/check', async (r) => {
      if (slow) await new Promise((resolve) => setTimeout(resolve, 400));
      await r.continue().catch(() => undefined); // aborted by the page meanwhile
    });
    await type(page, 'preform.wall', '3.90 mm');
    await page.waitForFunction(() => document.querySelector('#board')?.getAttribute('data-stale') === 'true');
    expect(await page.locator('#board .state').textContent()).toContain('Computing');
    await type(page, 'preform.wall', '3.50 mm');
    slow = false;
    await settled(page);
    expect(await page.locator('[data-dim=preform-wall]').textContent()).toContain('3.50');
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('a server that went away keeps the changes and is found again', async () => {
    const { page } = await desk(browser);
    await open(page, demo);
    const before = await value(page, 'preform.mass');
    await page.context().setOffline(true);
    await type(page, 'preform.wall', '3.75 mm');
    await page.getByText('The server does not answer.').waitFor();
    expect(await page.locator('#board').getAttribute('data-stale')).toBe('true');
    await accessible(page, 'offline', '.notice');
    await picture(page, 'state-offline');
    await page.context().setOffline(false);
    await settled(page);
    expect(await value(page, 'preform.mass')).not.toBe(before);
    expect(await page.getByText('The server does not answer.').count()).toBe(0);
    await leave(page);
  });

  it('a server fault is told, and can be tried again', async () => {
    const { page } = await desk(browser);
    await open(page, demo);
    let mended = false; // the page asks again by itself, too
    await page.route('**/api/check', (r) =>
      mended
        ? r.continue()
        : r.fulfill({ status: 500, json: { title: 'Internal Server Error', detail: 'the disk is on fire' } }),
    );
    await type(page, 'preform.wall', '3.75 mm');
    await page.getByText('the disk is on fire').waitFor();
    await accessible(page, 'server fault', '.notice');
    await picture(page, 'state-fault');
    expect(await page.locator('#board').getAttribute('data-stale')).toBe('true');
    await page.getByRole('button', { name: 'Try again' }).focus();
    await answered(page, () => {
      mended = true;
      return page.keyboard.press('Enter');
    });
    expect(await page.getByText('the disk is on fire').count()).toBe(0);
    // What was typed was kept and is taken along; the focus goes to what it changed.
    expect(await page.locator('[data-dim=preform-wall]').textContent()).toContain('3.75');
    expect(await focused(page)).toBe('board');
    await leave(page);
  });
});
