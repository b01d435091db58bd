// What is read by pointing: values where something is, by the name of what has them, and the whole scale of colours.
import type { Browser, Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { accessible, desk, launch, leave, open, picture } from './browser';

const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

const trace = (page: Page, key: string) => page.locator(`[data-trace="${key}"]`);
const full = async (page: Page) => {
  await page.getByRole('button', { name: 'Run the blow' }).click();
  await page.locator('.runbar[data-full=true]').waitFor({ timeout: 60_000 });
};

/** Every scale of colours is seen whole: none is squeezed, none runs out of what holds it. */
const cutRamps = (page: Page) =>
  page.evaluate(() =>
    [...document.querySelectorAll('[data-ramp]')]
      .map((svg) => {
        const box = svg.getBoundingClientRect();
        const holder = svg.closest('dd, section')!.getBoundingClientRect();
        return [Math.round(box.width), box.left >= holder.left - 1 && box.right <= holder.right + 1];
      })
      .filter(([width, inside]) => width !== 72 || !inside),
  );

describe('readings', () => {
  it('tells a measured point with its own place, and none where nothing was measured', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await page.locator('[data-stage=shelf]').click();
    const carbonation = trace(page, 'shelf.carbonation');
    const svg = carbonation.locator('svg[role=img]').first();
    await svg.waitFor();
    const pulls = carbonation.locator('.legend li', { hasText: 'pulls of the laboratory' }).locator('strong');
    const slider = carbonation.getByRole('slider');
    const points = carbonation.locator('path.mark.full');
    await svg.scrollIntoViewIfNeeded();
    const at = await points.evaluateAll((list) =>
      list.map((p) => {
        const b = p.getBoundingClientRect();
        return b.x + b.width / 2;
      }),
    );
    const box = (await svg.boundingBox())!;
    const places = at.filter((x) => x > box.x + 60 && x < box.x + box.width - 14).toSorted((a, b) => a - b);
    const y = box.y + box.height / 2;
    const last = places.at(-1)!;
    // On the point, beside it, and far behind the last one.
    await page.mouse.move(last, y);
    expect(await pulls.textContent()).toMatch(/^\d\.\d+\svol at 12\.00\sweeks$/);
    expect(await slider.getAttribute('aria-valuetext')).toMatch(/pulls of the laboratory \d\.\d+\svol at 12/);
    await picture(page, 'read-point');
    await page.mouse.move(last + 6, y);
    expect(await pulls.textContent()).toContain('at 12.00\u00a0weeks');
    await page.mouse.move(last + 40, y);
    expect(await pulls.count()).toBe(0);
    expect(await slider.getAttribute('aria-valuetext')).not.toContain('pulls of the laboratory');
    expect(await carbonation.locator('.legend strong').count()).toBeGreaterThan(0); // the curves go on
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('keeps a pressed button readable under the pointer', async () => {
    for (const colorScheme of ['light', 'dark'] as const) {
      const { page } = await desk(browser, { colorScheme });
      await open(page, demo);
      await page.locator('[data-stage=shelf]').click();
      await trace(page, 'shelf.loss')
        .getByRole('button', { name: /^Larger/ })
        .click(); // the pointer stays there
      await accessible(page, `larger, under the pointer, ${colorScheme}`, '.traces');
      for (const name of ['3-D view']) {
        await page.getByRole('button', { name }).click();
        await accessible(page, `${name}, under the pointer, ${colorScheme}`, '.runbar');
      }
      await leave(page);
    }
  });

  it('names the curve that the wall is coloured by, and shows its colours whole', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await full(page);
    const choice = page.getByLabel('Wall coloured by');
    const names = await choice.locator('option').allTextContents();
    const hoop = names.find((n) => /hoop, inside/.test(n))!;
    await choice.selectOption({ label: hoop });
    await page.getByLabel('Reading at height').focus();
    for (let i = 0; i < 10; i++) await page.keyboard.press('PageUp');
    expect(await page.locator('output').first().textContent()).toMatch(/hoop, inside\s+\d/);
    await page.getByRole('button', { name: '3-D view' }).click();
    for (const [width, height] of [
      [1280, 800],
      [820, 1180],
      [360, 740],
    ] as const) {
      await page.setViewportSize({ width, height });
      for (const name of names) {
        await choice.selectOption({ label: name });
        expect(await cutRamps(page), `${width}, ${name}`).toEqual([]);
      }
      await page.getByRole('button', { name: 'Show the blow' }).click();
      await page.getByText('Wall of the moment').waitFor();
      expect(await cutRamps(page), `${width}, blow`).toEqual([]);
      await picture(page, `ramp-blow-${width}`);
      await page.getByRole('button', { name: 'Show the bottle' }).click();
    }
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('has one scale of colours for the moment of the blow and for the wall beside it', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await full(page);
    const strip = () =>
      page.locator('.chart rect[width="7"]').evaluateAll((r) => r.map((e) => e.getAttribute('fill')));
    const choice = page.getByLabel('Wall coloured by');
    const shown: (string | null)[][] = [];
    for (const label of ['Wall thickness', /Barrier/i]) {
      const names = await choice.locator('option').allTextContents();
      await choice.selectOption({
        label: names.find((n) => (label instanceof RegExp ? label.test(n) : n === label))!,
      });
      const before = await strip();
      await page.getByRole('button', { name: 'Show the blow' }).click();
      await page.getByText('Wall of the moment').waitFor();
      shown.push(await strip());
      expect(shown.at(-1)).not.toEqual(before);
      await page.getByRole('button', { name: 'Show the bottle' }).click();
    }
    expect(shown[0]).toEqual(shown[1]); // whatever the bottle was coloured by
    expect(faults).toEqual([]);
    await leave(page);
  });
});
