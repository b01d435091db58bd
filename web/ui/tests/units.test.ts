// The reader's own units: chosen for a quantity, seen everywhere, kept, let go.
import type { Browser, Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { accessible, address, answered, desk, handed, launch, leave, open, picture, row } from './browser';

const demo = 'sorrel-lime.yaml';
const hot = 'wrenhollow.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

const panel = (page: Page) => page.getByRole('dialog', { name: 'Units' });
const choice = (page: Page, key: string) => panel(page).locator(`[data-quantity="${key}"] select`);
const more = (page: Page) => page.locator('.masthead button[data-own]');
const trace = (page: Page, key: string) => page.locator(`[data-trace="${key}"]`);
const axes = (page: Page, key: string) =>
  trace(page, key).locator('svg[role=img]').getAttribute('aria-label');
const paper = (page: Page) => page.locator('.paper').textContent();
const kept = (page: Page) => page.evaluate(() => localStorage.getItem('costrel.units'));

describe("the reader's own units", () => {
  it('reach board, plots, drawing, chain and tables, outlive the page, and go again', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await answered(page, () => page.locator('.masthead').getByRole('radio', { name: /US/ }).check());
    expect(await more(page).getAttribute('data-own')).toBe('0');
    await more(page).click();
    await panel(page).waitFor();
    expect(await choice(page, 'pressure').locator('option').first().textContent()).toBe('as US: psi');
    await answered(page, () => choice(page, 'pressure').selectOption('bar'));
    await answered(page, () => choice(page, 'length').selectOption('mm'));
    await answered(page, () => choice(page, 'stress').selectOption('MPa'));
    expect(await panel(page).getByRole('status').textContent()).toBe('3 units of your own');
    expect(await panel(page).locator('[data-quantity=pressure] small').textContent()).toContain('vacuum kPa');
    // What follows the choice of another quantity says so.
    const wall = choice(page, 'wall').locator('option').first();
    expect(await wall.textContent()).toBe('with length: mm');
    await accessible(page, 'choice of units');
    await picture(page, 'units-1280-light');
    await page.keyboard.press('Escape');
    await expect.poll(() => more(page).textContent()).toContain('3 have units of your own');
    expect(await kept(page)).toBe('us,length=mm,pressure=bar,stress=MPa');

    const everywhere = async () => {
      // Board: the family of pressures and all lengths; what was not chosen stays.
      expect(await row(page, 'pack.pressure.store').textContent()).toContain('bar(g)');
      expect(await row(page, 'pack.stress.hoop.hot').textContent()).toContain('MPa');
      expect(await row(page, 'bottle.height').textContent()).toContain('305 mm');
      expect(await row(page, 'wall.min').textContent()).toMatch(/0\.2\d* mm/);
      expect(await row(page, 'bottle.headspace').textContent()).toContain('fl oz');
      // Drawing: its dimensions and what heads its table.
      expect(await paper(page)).toContain('305.0');
      expect(await page.locator('#sheet').textContent()).toMatch(/50\s?mm.*From, mm.*Thinnest, mm/s);
      // Plots.
      await trace(page, 'pressure.temperature').waitFor();
      expect(await axes(page, 'wall.arc')).toMatch(/wall, mm over arc from the gate, mm;/);
      expect(await axes(page, 'pressure.temperature')).toMatch(/pressure, bar\(g\) over temperature, °F;/);
    };
    await everywhere();
    // Why.
    await row(page, 'pack.stress.hoop.hot').click();
    await expect.poll(() => page.locator('#why').textContent()).toMatch(/bar\(g\)[^→]*mm[^→]*→ [\d.]+ MPa/);
    // The table of a plot.
    const file = await handed(page, () =>
      trace(page, 'pressure.temperature').getByRole('button', { name: /^CSV/ }).click(),
    );
    expect(file.bytes.toString()).toContain('temperature [°F]');
    expect(file.bytes.toString()).toMatch(/\[bar\(g\)\]/);
    // A value that was typed stays as it was typed.
    expect(await page.locator('[data-path="preform.wall"] input').inputValue()).toMatch(/ mm$/);

    await page.reload();
    await page.locator('[data-key]').first().waitFor();
    await everywhere();
    // The other side keeps them; to let go of all is one press.
    await answered(page, () => page.locator('.masthead').getByRole('radio', { name: /EU/ }).check());
    expect(await kept(page)).toBe('eu,length=mm,pressure=bar,stress=MPa');
    await answered(page, () => page.locator('.masthead').getByRole('radio', { name: /US/ }).check());
    await more(page).click();
    await answered(page, () => panel(page).getByRole('button', { name: 'All as US' }).click());
    await panel(page).getByRole('button', { name: 'Close' }).click();
    expect(await kept(page)).toBe('us');
    expect(await row(page, 'pack.pressure.store').textContent()).toContain('psi(g)');
    expect(await axes(page, 'wall.arc')).toContain('wall, mil');
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('show the vacuum of a hot-filled pack in one unit on board and plots', async () => {
    const { page, faults } = await desk(browser);
    await open(page, hot);
    await page.locator('[data-stage=fill]').click();
    const both = async (unit: string) => {
      await expect.poll(() => row(page, 'hotfill.vacuum').textContent()).toContain(` ${unit}`);
      for (const key of [
        'hotfill.vacuum',
        'hotfill.sweep.fill',
        'hotfill.sweep.headspace',
        'hotfill.budget',
      ]) {
        await trace(page, key).waitFor();
        expect(await axes(page, key), key).toContain(`vacuum, ${unit}`);
      }
    };
    await both('kPa');
    await answered(page, () => page.locator('.masthead').getByRole('radio', { name: /US/ }).check());
    await both('inHg');
    await more(page).click();
    await answered(page, () => choice(page, 'vacuum').selectOption('mbar'));
    await page.keyboard.press('Escape');
    await both('mbar');
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('are chosen by keyboard alone, from the list of commands, in the dark and on a narrow screen', async () => {
    const { page, faults } = await desk(browser, {
      colorScheme: 'dark',
      viewport: { width: 820, height: 1100 },
    });
    await page.goto(address('/'));
    await page.locator('h1').waitFor();
    await page.keyboard.press('Control+K');
    await page.keyboard.type('units: choose');
    await page.keyboard.press('Enter');
    await panel(page).waitFor();
    const find = panel(page).getByRole('searchbox');
    await find.focus();
    await page.keyboard.type('vacuum');
    expect(await panel(page).locator('[data-quantity]').count()).toBe(1);
    await page.keyboard.press('Tab'); // the reset is off: nothing to reset
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('SELECT');
    await page.keyboard.type('mbar');
    await expect.poll(() => kept(page)).toBe('eu,vacuum=mbar');
    await find.fill('furlong');
    expect(await panel(page).textContent()).toContain('No quantity and no unit is called “furlong”');
    await find.fill('');
    await accessible(page, 'choice of units, dark');
    await picture(page, 'units-820-dark');
    await page.keyboard.press('Escape');
    await panel(page).waitFor({ state: 'detached' });
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('that cannot be read fall back to the side they stand under', async () => {
    const { page, faults } = await desk(browser);
    await page.goto(address('/'));
    await page.locator('h1').waitFor();
    for (const [stored, side] of [
      ['us,pressure=furlong', 'US'],
      ['us,colour=red', 'US'],
      ['us;;', 'US'],
      ['nonsense', 'EU'],
      ['eu,pressure=psi,pressure', 'EU'],
    ] as const) {
      await page.evaluate((text) => localStorage.setItem('costrel.units', text), stored);
      await page.reload();
      await page.locator('h1').waitFor();
      expect(await page.locator('.masthead').getByRole('radio', { name: side }).isChecked(), stored).toBe(
        true,
      );
      expect(await more(page).getAttribute('data-own'), stored).toBe('0');
    }
    await open(page, demo);
    expect(await row(page, 'pack.pressure.store').textContent()).toContain('bar(g)');
    expect(faults).toEqual([]);
    await leave(page);
  });
});

it('tells the units of the dimensions, and a wall in that of the chart', async () => {
  const { page, faults } = await desk(browser);
  await open(page, 'sorrel-lime.yaml');
  const block = page.locator('.sheet .block');
  await block.getByText('dimensions in mm').waitFor();
  await page.getByRole('radio', { name: /US/ }).check();
  await block.getByText('dimensions in inches').waitFor();
  await page
    .locator('.paper svg text', { hasText: /^wall 1\d\d\.\d mil$/ })
    .first()
    .waitFor();
  const box = page.locator('.paper [id$="preform-wall"]');
  await box.click();
  await page.keyboard.press('Control+A');
  await page.keyboard.type('140');
  await page.keyboard.press('Enter');
  await page
    .locator('.paper svg text', { hasText: /^wall 140\.0 mil$/ })
    .first()
    .waitFor();
  // The choice of colours is not cut, and the mark of a verdict stands in its line.
  await page.getByRole('radio', { name: /EU/ }).check();
  const select = page.getByRole('combobox', { name: 'Wall coloured by' });
  expect(await select.evaluate((e) => getComputedStyle(e).textOverflow)).toBe('ellipsis');
  expect(await select.getAttribute('title')).not.toBe('');
  await page.locator('#board [data-key="preform.mass"]').first().click();
  const verdict = page.locator('#why [data-verdict]').first();
  await verdict.waitFor();
  const [mark, words] = await verdict.evaluate((e) =>
    [e.querySelector('svg')!, e.querySelector('strong')!].map((x) => x.getBoundingClientRect()),
  );
  expect(mark!.bottom).toBeGreaterThan(words!.top);
  expect(mark!.right).toBeLessThan(words!.left);
  expect(faults).toEqual([]);
  await leave(page);
});
