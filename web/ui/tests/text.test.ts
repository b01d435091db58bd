// The text of the design beside it: the same, either way.
import type { Browser, Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  accessible,
  address,
  answered,
  desk,
  field,
  launch,
  leave,
  open,
  picture,
  type,
  value,
} from './browser';

const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

const area = (page: Page) => page.getByRole('textbox', { name: 'The design file' });
const mode = (page: Page, name: 'Inputs' | 'Text') =>
  page.locator('.modes').getByRole('button', { name, exact: true }).click();

describe('the text of a design', () => {
  it('goes both ways and is undone as one step', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    const before = await value(page, 'preform.mass');
    await mode(page, 'Text');
    const text = await area(page).inputValue();
    expect(text).toContain('wall: 3.60 mm');
    await accessible(page, 'text', '.left');
    await answered(page, () => area(page).fill(text.replace('wall: 3.60 mm', 'wall: 3.70 mm # thicker')));
    expect(await value(page, 'preform.mass')).not.toBe(before);
    await mode(page, 'Inputs');
    expect(await field(page, 'preform.wall').inputValue()).toBe('3.70 mm');
    await answered(page, () => type(page, 'preform.wall', '3.50 mm'));
    await mode(page, 'Text');
    expect(await area(page).inputValue()).toContain('wall: 3.50 mm # thicker');
    await area(page).focus();
    await answered(page, () => page.keyboard.press('Control+Z'));
    expect(await area(page).inputValue()).toContain('wall: 3.70 mm # thicker');
    await answered(page, () => page.keyboard.press('Control+Z'));
    expect(await area(page).inputValue()).toBe(text);
    expect(await value(page, 'preform.mass')).toBe(before);
    await picture(page, 'text-1280-light');
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('shows faults at their lines while the board stands', async () => {
    const { page, faults } = await desk(browser, { colorScheme: 'dark' });
    await open(page, demo);
    const before = await value(page, 'preform.mass');
    await mode(page, 'Text');
    const text = await area(page).inputValue();
    await answered(page, () => area(page).fill(text.replace('wall: 3.60 mm', 'wall: 3.60 furlong')));
    const list = page.locator('.text .faults');
    expect(await list.textContent()).toContain('furlong');
    expect(await area(page).getAttribute('aria-invalid')).toBe('true');
    expect(await value(page, 'preform.mass')).toBe(before);
    expect(await page.locator('#board').getAttribute('data-stale')).toBe('true');
    await list.getByRole('button').first().click();
    const line = await area(page).evaluate(
      (e: HTMLTextAreaElement) => e.value.slice(0, e.selectionStart).split('\n').length,
    );
    expect(await area(page).evaluate((e: HTMLTextAreaElement) => e.value.split('\n'))).toSatisfy(
      (l: string[]) => l[line - 1]!.includes('furlong'),
    );
    await page.locator('.gutter .wrong').waitFor();
    await accessible(page, 'text with a fault', '.left');
    await picture(page, 'text-fault-dark');
    await answered(page, () => page.keyboard.press('Control+Z'));
    expect(await page.locator('.gutter .wrong').count()).toBe(0);
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('mends a file that has no usable input', async () => {
    const { page, faults } = await desk(browser);
    await page.route(`**/api/designs/${demo}`, async (r) => {
      const answer = await r.fetch();
      const body = (await answer.json()) as { text: string };
      body.text = body.text.replace('preform:', 'prefrom:');
      await r.fulfill({ response: answer, json: body });
    });
    await page.goto(address(`/design/${demo}`));
    await area(page).waitFor();
    await mode(page, 'Inputs');
    await page
      .getByRole('button', { name: /Show in the text/ })
      .first()
      .click();
    await expect.poll(() => area(page).evaluate((e) => document.activeElement === e)).toBe(true);
    await accessible(page, 'broken file in the text');
    await answered(page, async () =>
      area(page).fill((await area(page).inputValue()).replace('prefrom:', 'preform:')),
    );
    expect(await page.locator('.problems').count()).toBe(0);
    expect(await page.locator('#board [data-key]').count()).toBeGreaterThan(10);
    expect(faults).toEqual([]);
    await leave(page);
  });
});
