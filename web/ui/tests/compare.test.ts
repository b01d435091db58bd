// The baseline: every number shows its difference, and the sheet lists what changed.
import type { Browser, Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { accessible, answered, desk, handed, launch, leave, open, picture, row, type } from './browser';

const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

const delta = (page: Page, key: string) => row(page, key).locator('.delta').textContent();

describe('baseline', () => {
  it('pins a design as it stands and shows what a change moves', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await page.getByRole('combobox', { name: 'Against' }).selectOption('now');
    await row(page, 'preform.mass').locator('.delta').waitFor();
    expect(await delta(page, 'preform.mass')).toContain('as the baseline');
    await answered(page, () => type(page, 'preform.wall', '3.50 mm'));
    await expect.poll(() => delta(page, 'preform.mass')).toMatch(/\u2212\d.*g \(\u2212\d.*%\)/);
    expect(await delta(page, 'shelf.loss.end')).toMatch(/margin \u2212/);
    await accessible(page, 'baseline');
    await picture(page, 'baseline-1280-light');
    await page.getByRole('button', { name: 'Differences' }).click();
    const sheet = page.getByRole('dialog');
    await sheet.locator('.margins').waitFor();
    const costs = await sheet
      .locator('.margins tbody tr td:last-child')
      .allTextContents()
      .then((l) => l.map((t) => Number(t.replace('\u2212', '-').replace(/[^-.\d].*/, ''))));
    const known = costs.filter((c) => Number.isFinite(c));
    expect(known.length).toBeGreaterThan(1);
    expect(known).toEqual(known.toSorted((a, b) => b - a));
    expect(await sheet.textContent()).toMatch(/Preform: Wall\s*3\.60? mm\s*3\.50? mm/);
    await accessible(page, 'difference sheet', 'dialog[open]');
    await picture(page, 'difference-1280-light');
    const file = await handed(page, () => sheet.getByRole('button', { name: 'CSV of the sheet' }).click());
    const text = file.bytes.toString();
    expect(text).toContain('Engineering estimate');
    expect(text).toContain('Preform mass');
    // A spreadsheet computes with it: numbers stand bare beside their unit, and add up.
    const cells = text
      .split('\r\n')
      .map((l) => [...l.matchAll(/(?:"((?:[^"]|"")*)"|([^,]*))(?:,|$)/g)].map((c) => c[1] ?? c[2] ?? ''));
    const mass = cells.find((c) => c[0] === 'Preform mass' && c[4] === 'g')!;
    expect(mass.slice(1, 4).every((c) => /^-?\d+(\.\d+)?$/.test(c))).toBe(true);
    expect(Number(mass[1]) + Number(mass[3])).toBeCloseTo(Number(mass[2]), 9);
    const head = cells.find((c) => c[0] === 'Limit on')!;
    const margins = cells.slice(cells.indexOf(head) + 1).slice(0, costs.length);
    const column = (name: string) => head.indexOf(name);
    const changes = margins.map((c) => Number(c[column('Change')]));
    expect(changes.filter((c) => c < 0).length).toBeGreaterThan(1);
    for (const c of margins) {
      for (const name of ['Limit, now', 'Margin, baseline', 'Margin, now', 'Change'])
        expect(c[column(name)], `${c[0]}: ${name}`).toMatch(/^(-?\d+(\.\d+)?(e-?\d+)?)?$/);
      expect(c[column('Limit on')]).not.toMatch(/\d /);
    }
    expect(text).not.toMatch(/(^|,)('|\u2212|\+)/m);
    await page.keyboard.press('Escape');
    await answered(page, () => page.keyboard.press('Control+Z'));
    await expect.poll(() => delta(page, 'preform.mass')).toContain('as the baseline');
    await page.getByRole('combobox', { name: 'Against' }).selectOption('');
    await expect.poll(() => page.locator('.delta').count()).toBe(0);
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('takes another file, in other units, too', async () => {
    const { page, faults } = await desk(browser, {
      viewport: { width: 1920, height: 1080 },
      colorScheme: 'dark',
    });
    await open(page, 'ravensholt-new.yaml');
    await page.getByRole('combobox', { name: 'Against' }).focus();
    await page.locator('option[value="ravensholt-old.yaml"]').waitFor({ state: 'attached' });
    await page.getByRole('combobox', { name: 'Against' }).selectOption('ravensholt-old.yaml');
    await expect.poll(() => delta(page, 'preform.mass')).toMatch(/\u2212/);
    await answered(page, () => page.getByRole('radio', { name: /US/ }).check());
    await expect.poll(() => delta(page, 'pack.pressure.store')).toMatch(/psi|as the baseline/);
    await accessible(page, 'baseline of another file', '#board');
    await picture(page, 'baseline-1920-dark');
    await page.getByRole('button', { name: 'Differences' }).click();
    await page.getByRole('dialog').locator('table').first().waitFor();
    await accessible(page, 'difference sheet, dark', 'dialog[open]');
    await picture(page, 'difference-1920-dark');
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('counts no difference between a preview wall and a blown one, and says so in the row', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await answered(page, () => type(page, 'blow.pre_blow', '1 bar(g)'));
    await answered(page, () => type(page, 'blow.high_blow', '2 bar(g)'));
    await page.getByRole('button', { name: 'Run the blow' }).click();
    await page.locator('.runbar[data-full=true]').waitFor();
    await page.getByRole('combobox', { name: 'Against' }).focus();
    await page.locator(`option[value="${demo}"]`).waitFor({ state: 'attached' });
    await page.getByRole('combobox', { name: 'Against' }).selectOption(demo);
    const wall = row(page, 'wall.min').locator('.delta');
    await expect.poll(() => wall.textContent()).toContain('preview beside blown wall');
    expect(await wall.textContent()).toContain('run both in full'); // for a screen reader
    expect(await wall.getAttribute('title')).toContain('run both in full');
    expect(await wall.textContent()).not.toMatch(/\d\s*(mm|%)/);
    expect(await delta(page, 'preform.mass')).toContain('as the baseline');
    await wall.scrollIntoViewIfNeeded();
    await accessible(page, 'preview beside a blown wall', '#board');
    await picture(page, 'unlike-1280-light');
    await page.getByRole('button', { name: 'Differences' }).click();
    const sheet = page.getByRole('dialog');
    await sheet.locator('.unlike').first().waitFor();
    await picture(page, 'unlike-sheet-1280-light');
    const file = await handed(page, () => sheet.getByRole('button', { name: 'CSV of the sheet' }).click());
    const lines = file.bytes.toString().split('\n');
    expect(lines.find((l) => l.includes('no difference counted') && /wall/i.test(l))).toBeDefined();
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('counts no difference between losses from two references, and names both', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo); // counts from the reading after 24 hours
    await page.getByRole('combobox', { name: 'Against' }).focus();
    await page.locator('option[value="ravensholt-old.yaml"]').waitFor({ state: 'attached' });
    await page.getByRole('combobox', { name: 'Against' }).selectOption('ravensholt-old.yaml');
    const loss = row(page, 'shelf.loss.end').locator('.delta');
    await expect.poll(() => loss.textContent()).toContain('from sealed beside from 24 h');
    expect(await loss.getAttribute('title')).toContain('shelf.loss_reference');
    expect(await loss.locator(':scope:not(.hidden)').textContent()).not.toMatch(/\d\s*(%|points)/);
    await loss.scrollIntoViewIfNeeded();
    await picture(page, 'unlike-reference');
    await page.getByRole('button', { name: 'Differences' }).click();
    const sheet = page.getByRole('dialog');
    await sheet.locator('[data-margin="shelf.loss.end"]').getByText('from sealed beside from 24 h').waitFor();
    // A limit on either side is told apart, and what has no margin stands behind what has one.
    const rows = await sheet
      .locator('.margins tbody tr')
      .evaluateAll((list) =>
        list.map((r) => [
          r.querySelector('th')!.textContent!,
          r.querySelector('td:nth-child(5)')!.textContent!,
        ]),
      );
    expect(rows.every(([name]) => /, at (least|most)/.test(name!))).toBe(true);
    expect(new Set(rows.map(([name]) => name)).size).toBe(rows.length);
    const kinds = await sheet
      .locator('.margins tbody tr')
      .evaluateAll((list) =>
        list.map((r) =>
          /^[+\u2212]?\d/.test(r.querySelector('td:nth-child(5)')!.textContent!.trim())
            ? 'counted'
            : r.querySelector('td')!.textContent!.includes('not computed')
              ? 'not computed'
              : '',
        ),
      );
    expect(kinds).toContain('not computed');
    expect(kinds.indexOf('not computed')).toBeGreaterThan(kinds.lastIndexOf('counted'));
    await accessible(page, 'losses from two references', 'dialog[open]');
    await picture(page, 'unlike-reference-sheet');
    expect(faults).toEqual([]);
    await leave(page);
  });
});
