// Narrow pages: nothing runs over the edge, everything is reached by scrolling down.
import type { Browser, Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { accessible, address, desk, launch, leave, open, picture, row } from './browser';

let browser: Browser;
beforeAll(async () => void (browser = await launch()));

/** How far the page runs over its right edge, px. */
const over = (page: Page) => page.evaluate(() => document.documentElement.scrollWidth - innerWidth);

it.each([
  [320, 'dark'],
  [360, 'light'],
  [400, 'dark'],
  [640, 'light'],
] as const)('%d px wide', async (width, colorScheme) => {
  const { page, faults } = await desk(browser, { viewport: { width, height: 740 }, colorScheme });
  await open(page, 'sorrel-lime.yaml');
  expect(await over(page), 'the design').toBeLessThanOrEqual(0);
  await page.getByRole('combobox', { name: 'Against' }).focus();
  await page.locator('option[value="ravensholt-old.yaml"]').waitFor({ state: 'attached' });
  await page.getByRole('combobox', { name: 'Against' }).selectOption('ravensholt-old.yaml');
  await row(page, 'shelf.loss.end').locator('.delta').waitFor();
  expect(await over(page), 'baseline').toBeLessThanOrEqual(0);
  const boxes = await page.evaluate(() =>
    ['.sheet', '.traces', '.right', '.left', '.cautions'].map((s) => {
      const b = document.querySelector(s)!.getBoundingClientRect();
      return [b.top, b.bottom, b.width];
    }),
  );
  if (width <= 600)
    for (let i = 1; i < boxes.length; i++) {
      expect(boxes[i]![0]).toBeGreaterThanOrEqual(boxes[i - 1]![1]! - 1);
      expect(boxes[i]![2]).toBeGreaterThan(width - 20);
    }
  await row(page, 'preform.mass').scrollIntoViewIfNeeded();
  await accessible(page, `${width} px`);
  await picture(page, `narrow-${width}-board`);
  await row(page, 'preform.mass').click();
  await page.locator('#why h3').first().waitFor();
  expect(await over(page), 'why').toBeLessThanOrEqual(0);
  await page.locator('#why').scrollIntoViewIfNeeded();
  await picture(page, `narrow-${width}-why`);
  await page.keyboard.press('Escape');
  await page.locator('.modes').getByRole('button', { name: 'Text', exact: true }).click();
  expect(await over(page), 'text').toBeLessThanOrEqual(0);
  await page.locator('button[data-stage=shelf]').click();
  expect(await over(page), 'shelf').toBeLessThanOrEqual(0);
  await page.getByRole('button', { name: 'Differences' }).click();
  await page.getByRole('dialog').locator('.margins').waitFor();
  expect(await over(page), 'difference sheet').toBeLessThanOrEqual(0);
  await picture(page, `narrow-${width}-sheet`);
  for (const hash of ['/', '/cards']) {
    await page.goto(address(hash));
    await page.locator('h1').waitFor();
    await page.locator('tbody tr, details').first().waitFor();
    expect(await over(page), hash).toBeLessThanOrEqual(0);
  }
  expect(faults).toEqual([]);
  await leave(page);
});

it.each([320, 390, 820])('%d px wide: the playback hides nothing that has the focus', async (width) => {
  const { page, faults } = await desk(browser, { viewport: { width, height: 640 } });
  await open(page, 'sorrel-lime.yaml');
  await page.getByRole('button', { name: 'Run the blow' }).click();
  await page.locator('.runbar[data-full=true]').waitFor();
  await page.locator('.playbar').waitFor();
  await page.locator('[data-trace] .plot svg').first().waitFor();
  const high = await page.locator('.told .lines').evaluate((e) => e.getBoundingClientRect().height);
  expect(high, 'one line').toBeLessThan(60);
  expect(await over(page)).toBeLessThanOrEqual(0);
  const beneath = await page.evaluate(() => {
    const out: string[] = [];
    const all = [
      ...document.querySelectorAll<HTMLElement>(
        'main :is(button, input, select, summary, a[href], [tabindex="0"])',
      ),
    ].filter((e) => !e.closest('.told') && e.checkVisibility());
    scrollTo(0, 0);
    for (const e of all) {
      e.focus();
      if (document.activeElement !== e) continue;
      const [own, bar] = [e, document.querySelector('.told .lines')!].map((x) => x.getBoundingClientRect());
      if (own!.height < bar!.top && own!.bottom > bar!.top + 1)
        out.push(
          `${e.tagName} ${e.className} ${e.textContent?.trim().slice(0, 30)} ${own!.bottom} > ${bar!.top}`,
        );
    }
    return [...(all.length < 40 ? [`only ${all.length} controls`] : []), ...out];
  });
  expect(beneath).toEqual([]);
  await page.getByRole('slider', { name: 'Time of the blow' }).focus();
  await page.keyboard.press('ArrowRight');
  await accessible(page, `playback, ${width} px`, '.told');
  await picture(page, `narrow-${width}-playback`);
  expect(faults).toEqual([]);
  await leave(page);
});
