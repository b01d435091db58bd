// Undo back to a text that was run in full: all that is shown belongs to its bottle.
import type { Browser, Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { answered, desk, launch, leave, open, type, value } from './browser';

const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

async function blow(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Run the blow' }).click();
  await page.locator('.runbar[data-full=true]').waitFor();
}

/** The skin of the preform a third of the way through the playback. */
async function frame(page: Page): Promise<string> {
  const scrub = page.getByRole('slider', { name: 'Time of the blow' });
  await scrub.evaluate((e: HTMLInputElement) => {
    e.value = String(Number(e.min) + (Number(e.max) - Number(e.min)) * 0.3);
    e.dispatchEvent(new Event('input', { bubbles: true }));
  });
  await page.waitForTimeout(100);
  expect(Number(await page.locator('.playbar').getAttribute('data-time'))).toBeGreaterThan(0);
  return (await page.locator('g.blow .skin').first().getAttribute('d')) ?? '';
}

it('undo and redo bring the playback of the text that was run', async () => {
  const { page, faults } = await desk(browser);
  await open(page, demo);
  await blow(page);
  const mass = await value(page, 'preform.mass');
  const first = await frame(page);
  await answered(page, () => type(page, 'preform.wall', '3.42 mm'));
  await blow(page);
  const second = await frame(page);
  expect(second).not.toBe(first);
  for (const [key, frames] of [
    ['Control+Z', first],
    ['Control+Shift+Z', second],
    ['Control+Z', first],
  ] as const) {
    await page.locator('#board').focus();
    await answered(page, () => page.keyboard.press(key));
    await page.locator('.runbar[data-full=true]').waitFor();
    expect(await page.locator('.playbar').getAttribute('data-stale')).toBe('false');
    expect(await page.getByText('This blow is from before the changes since').count()).toBe(0);
    expect(await frame(page)).toBe(frames);
  }
  expect(await value(page, 'preform.mass')).toBe(mass);
  expect(faults).toEqual([]);
  await leave(page);
});
