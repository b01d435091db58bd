// The buckling mode of a full run: as a solid, in section and in plan.
import type { Browser } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { accessible, answered, desk, launch, leave, open, picture, type } from './browser';

const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

it('shows the mode with its amplitude, and says when it is old', async () => {
  const { page } = await desk(browser, { viewport: { width: 1920, height: 1080 } });
  await open(page, demo);
  await page.getByRole('button', { name: '3-D view' }).click();
  const choice = page.getByRole('button', { name: 'Buckling mode' });
  await choice.waitFor();
  expect(await choice.isDisabled()).toBe(true); // there is none before a full run
  await answered(page, () => page.getByRole('button', { name: 'Run the blow' }).click());
  await choice.click();
  const solid = page.locator('#solid');
  await solid.locator('figure').waitFor();
  expect(await solid.textContent()).toMatch(/\d+ waves round the axis at [\d.]+\sN/);
  const ring = () => solid.locator('[data-line=ring]').getAttribute('d');
  const before = await ring();
  const amplitude = solid.locator('[data-amplitude]');
  const shown = await solid.locator('output').textContent();
  await amplitude.focus();
  await page.keyboard.press('ArrowRight');
  expect(await ring()).not.toBe(before);
  expect(await solid.locator('output').textContent()).not.toBe(shown);
  await accessible(page, 'buckling mode', '#solid');
  await solid.scrollIntoViewIfNeeded();
  await picture(page, 'mode-1920-light');
  // The finish stands on the form: what is topmost is grey, what is below has the colours of the mode.
  const canvas = await solid.locator('canvas').screenshot();
  const grey = await page.evaluate(async (text) => {
    const blob = new Blob([Uint8Array.from(atob(text), (c) => c.charCodeAt(0))], { type: 'image/png' });
    const bitmap = await createImageBitmap(blob);
    const paper = new OffscreenCanvas(bitmap.width, bitmap.height);
    const pen = paper.getContext('2d')!;
    pen.drawImage(bitmap, 0, 0);
    const { data } = pen.getImageData(0, 0, bitmap.width, bitmap.height);
    const back = [...data.slice(0, 3)];
    const x = Math.round(bitmap.width / 2); // the axis
    const column: number[] = []; // how far from grey, from the top of the form down
    for (let y = 0; y < bitmap.height; y++) {
      const c = [...data.slice(4 * (y * bitmap.width + x), 4 * (y * bitmap.width + x) + 3)];
      if (column.length > 0 || c.some((v, i) => Math.abs(v - back[i]!) > 12))
        column.push(Math.max(...c) - Math.min(...c));
    }
    const part = (from: number, to: number) => {
      const list = column.slice(Math.round(from * column.length), Math.round(to * column.length));
      return list.reduce((a, b) => a + b, 0) / list.length;
    };
    return { finish: part(0.01, 0.03), wall: part(0.2, 0.6) };
  }, canvas.toString('base64'));
  expect(grey.finish).toBeLessThan(30);
  expect(grey.wall).toBeGreaterThan(60);
  // With the amplitude at nothing the wall is the unloaded one.
  await page.keyboard.press('Home');
  const line = (key: string) => solid.locator(`[data-line=${key}]`).getAttribute('d');
  expect(await line('crest')).toBe(await line('unloaded'));
  expect(await line('trough')).toBe(await line('unloaded'));
  await answered(page, () => type(page, 'preform.wall', '3.7 mm'));
  expect(await solid.getAttribute('data-stale')).toBe('true');
  expect(await solid.textContent()).toContain('before the changes since');
  await leave(page);
});
