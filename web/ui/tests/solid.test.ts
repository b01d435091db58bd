// The solid view, in a browser that draws it in software; the temperature map beside it.
import type { Browser } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { accessible, answered, desk, focused, launch, leave, open, picture } from './browser';

const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

it('shows the bottle as a solid and turns it', async () => {
  const { page, faults } = await desk(browser);
  await open(page, demo);
  await page.getByRole('button', { name: '3-D view' }).click();
  const canvas = page.locator('#solid canvas');
  await canvas.waitFor();
  expect(await canvas.evaluate((c) => c.getBoundingClientRect().top < innerHeight - 200)).toBe(true);
  // What the canvas shows is read from a picture of the page: its own memory is cleared after each drawing.
  const look = async () => {
    await page.waitForTimeout(300);
    return (await canvas.screenshot()).toString('base64');
  };
  const before = await look();
  await accessible(page, 'solid view', '#solid');
  await picture(page, 'solid-1280-light');
  await page.getByRole('slider', { name: 'Turn' }).focus();
  for (let i = 0; i < 8; i++) await page.keyboard.press('ArrowRight');
  const after = await look();
  const [plain, shown] = await page.evaluate(
    async ([a, b]) => {
      const pixels = async (text: string) => {
        const bytes = Uint8Array.from(atob(text), (c) => c.charCodeAt(0));
        const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
        const pen = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d')!;
        pen.drawImage(bitmap, 0, 0);
        return pen.getImageData(0, 0, bitmap.width, bitmap.height).data;
      };
      const [p, q] = [await pixels(a!), await pixels(b!)];
      let moved = 0;
      const colours = new Set<number>();
      for (let i = 0; i < p.length; i += 4) {
        if (p[i] !== q[i] || p[i + 1] !== q[i + 1]) moved++;
        colours.add((p[i]! << 16) | (p[i + 1]! << 8) | p[i + 2]!);
      }
      return [moved, colours.size];
    },
    [before, after],
  );
  expect(shown).toBeGreaterThan(100); // shaded, not blank
  expect(plain).toBeGreaterThan(500); // turned
  await page.locator('#solid').getByRole('button', { name: 'Close' }).click();
  expect(await page.locator('#solid').count()).toBe(0);
  expect(await focused(page)).toBe('solid-toggle');
  expect(faults).toEqual([]);
  await leave(page);
});

it('says so where there is no 3-D drawing', async () => {
  const { page } = await desk(browser, { colorScheme: 'dark' }, true);
  await page.addInitScript(() => {
    HTMLCanvasElement.prototype.getContext = () => null;
  });
  await open(page, demo);
  await page.getByRole('button', { name: '3-D view' }).click();
  await page.getByText('This browser draws no 3-D here').waitFor();
  await accessible(page, 'no solid view', '#solid');
  await leave(page);
});

it('shows the temperature through the wall as a map', async () => {
  const { page, faults } = await desk(browser);
  await open(page, demo);
  await answered(page, () => page.locator('[data-path="oven.temperatures"] select').selectOption('lamps'));
  await page.getByRole('button', { name: 'Run the blow' }).click();
  await page.locator('.runbar[data-full=true]').waitFor();
  await page.locator('[data-stage=heat]').click();
  const map = page.locator('[data-trace="reheat.map"]');
  await map.scrollIntoViewIfNeeded();
  const box = (await map.locator('svg[role=img]').boundingBox())!;
  await page.mouse.move(box.x + box.width * 0.45, box.y + box.height * 0.4);
  expect(await map.locator('.told').textContent()).toMatch(/temperature \d+\.?\d*\s°C/);
  await page.mouse.move(5, 5);
  await map.getByRole('slider').first().focus();
  await page.keyboard.press('ArrowRight');
  expect(await map.getByRole('slider').first().getAttribute('aria-valuetext')).toMatch(/temperature \d/);
  await accessible(page, 'map', '.traces');
  await picture(page, 'map-1280-light');
  expect(faults).toEqual([]);
  await leave(page);
});
