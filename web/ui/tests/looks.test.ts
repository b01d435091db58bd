// The workbench in every size and both schemes, with all that can stand on it at once: a moment of the
// blow, reasons, traces. Nothing runs out of the page, nothing lies over anything else.
import type { Browser, Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { accessible, desk, field, launch, leave, open, picture, row } from './browser';

const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

/** What lies over the middle of the field that has the focus; '' when it is the field itself. */
const over = (page: Page) =>
  page.evaluate(() => {
    const own = document.activeElement!;
    const box = own.getBoundingClientRect();
    const top = document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2);
    return own.contains(top) ? '' : `${top?.tagName}.${top?.className} over ${own.id}`;
  });

/** Parts of the middle that reach into the next one. */
const crossing = (page: Page) =>
  page.evaluate(() => {
    const boxes = ['.sheet', '.traces', '.cautions'].map((s) =>
      document.querySelector(s)!.getBoundingClientRect(),
    );
    const paper = document.querySelector('.sheet .hand')!.getBoundingClientRect();
    return [paper.bottom - boxes[0]!.bottom, boxes[0]!.bottom - boxes[1]!.top].filter((d) => d > 1);
  });

it.each([
  ['1280-dark', 1280, 800, 'dark', 1],
  ['1920-light', 1920, 1080, 'light', 1],
  ['1920-dark', 1920, 1080, 'dark', 1],
  ['tablet-light', 820, 1180, 'light', 1],
  ['1024-dark', 1024, 768, 'dark', 1],
  ['zoomed-to-200', 640, 400, 'light', 2],
] as const)('%s', async (name, width, height, colorScheme, deviceScaleFactor) => {
  const { page, faults } = await desk(browser, {
    viewport: { width, height },
    colorScheme,
    deviceScaleFactor,
    reducedMotion: 'reduce',
  });
  await open(page, demo);
  // Down the list with the keys: the field that is reached is never under the note or a heading.
  for (const path of ['plant.resin_price', 'brief.nominal', 'closure.type', 'preform.wall']) {
    await field(page, path).focus();
    expect(await over(page), path).toBe('');
    await page.keyboard.press('Tab');
    expect(await over(page), `after ${path}`).toBe('');
  }
  await picture(page, `looks-${name}`);
  await row(page, 'pack.pressure.store').click();
  await page.getByRole('button', { name: 'Run the blow' }).click();
  await page.locator('.runbar[data-full=true]').waitFor();
  await page.getByRole('button', { name: 'Show the blow' }).click();
  await page.getByRole('slider', { name: 'Time of the blow' }).evaluate((e: HTMLInputElement) => {
    e.value = String(Number(e.max) * 0.4);
    e.dispatchEvent(new Event('input', { bubbles: true }));
  });
  await picture(page, `looks-${name}-blow`);
  await page.locator('[data-stage=shelf]').click();
  await page.locator('[data-trace="shelf.loss"]').scrollIntoViewIfNeeded();
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  expect(await crossing(page)).toEqual([]);
  await accessible(page, name);
  await picture(page, `looks-${name}-traces`);
  expect(faults).toEqual([]);
  await leave(page);
});
