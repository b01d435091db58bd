// The traces below the drawing: reading, narrowing, tables, pictures.
import type { Browser, Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { accessible, answered, desk, handed, launch, leave, open, picture, type } from './browser';

const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

const trace = (page: Page, key: string) => page.locator(`[data-trace="${key}"]`);
const curve = (page: Page, key: string) => trace(page, key).locator('path.line').first().getAttribute('d');

describe('traces', () => {
  it('shows one of each stop, and all of the chosen one', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await trace(page, 'wall.arc').waitFor();
    expect(await page.locator('.traces').textContent()).toContain('draw-down preview');
    expect(await trace(page, 'shelf.oxygen').count()).toBe(0);
    await page.locator('[data-stage=shelf]').click();
    await trace(page, 'shelf.oxygen').waitFor();
    expect(await trace(page, 'wall.arc').count()).toBe(0);
    expect(await trace(page, 'shelf.loss').locator('.legend li').count()).toBe(7);
    // Carbonation: the drink in its band, the pulls of the laboratory, the curve at their temperature.
    const carbonation = trace(page, 'shelf.carbonation');
    expect(await carbonation.locator('path.band').count()).toBe(1);
    expect(await carbonation.locator('.legend li').count()).toBe(3);
    expect(await carbonation.textContent()).toContain('pulls of the laboratory');
    await accessible(page, 'traces', '.traces');
    await page.locator('#traces').scrollIntoViewIfNeeded();
    await picture(page, 'traces-1280-light');
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('reads values by pointing and by keyboard, in the units of the reader', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    const wall = trace(page, 'wall.arc');
    await wall.scrollIntoViewIfNeeded();
    const box = (await wall.locator('svg[role=img]').boundingBox())!;
    await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    expect(await wall.locator('.legend').textContent()).toMatch(/arc from the gate\s+\d+\.?\d*\smm/);
    expect(await wall.locator('.legend strong').first().textContent()).toMatch(/^0\.\d+\smm$/);
    await picture(page, 'trace-read');
    await page.mouse.move(5, 5);
    const slider = wall.getByRole('slider');
    await slider.focus();
    for (let i = 0; i < 20; i++) await page.keyboard.press('ArrowRight');
    expect(await slider.getAttribute('aria-valuetext')).toMatch(/draw-down preview 0\.\d+\smm/);
    const before = await curve(page, 'wall.arc');
    await page.keyboard.press('+');
    expect(await curve(page, 'wall.arc')).not.toBe(before);
    await wall.getByRole('button', { name: 'Whole range' }).waitFor();
    await page.keyboard.press('Escape');
    expect(await curve(page, 'wall.arc')).toBe(before);
    // Dragging across narrows as well.
    await page.mouse.move(box.x + box.width * 0.4, box.y + 80);
    await page.mouse.down();
    await page.mouse.move(box.x + box.width * 0.7, box.y + 90, { steps: 4 });
    await page.mouse.up();
    await wall.getByRole('button', { name: 'Whole range' }).click();
    await answered(page, () => page.getByRole('radio', { name: /US/ }).check());
    await expect.poll(() => wall.locator('svg[role=img]').getAttribute('aria-label')).toContain('wall, mil');
    await answered(page, () => page.getByRole('radio', { name: /EU/ }).check());
    expect(faults).toEqual([]);
    await leave(page);
  });

  it.each([1280, 390])('reads without moving what stands below, %d px wide', async (width) => {
    const { page, faults } = await desk(browser, { viewport: { width, height: 800 } });
    await open(page, demo);
    await trace(page, 'wall.arc').waitFor();
    // The first click after a reading by keyboard ends it and is a click all the same.
    await page.locator('[data-stage=shelf]').click();
    const read = trace(page, 'shelf.carbonation');
    await read.getByRole('slider').focus();
    await page.keyboard.press('ArrowRight');
    expect(await read.locator('.legend').textContent()).toMatch(/time\s+\d/);
    await handed(page, async () => {
      const next = trace(page, 'shelf.oxygen').getByRole('button', { name: /^CSV/ });
      await next.scrollIntoViewIfNeeded();
      const box = (await next.boundingBox())!;
      await page.mouse.click(box.x + 4, box.y + box.height - 2);
    });
    // Pointing, at any place of the axis.
    for (const stage of ['shelf', 'fill', 'blow', 'preform']) {
      await page.locator(`[data-stage=${stage}]`).click();
      for (const key of await page
        .locator('[data-trace]:has(.plot)')
        .evaluateAll((all) => all.map((a) => (a as HTMLElement).dataset.trace!))) {
        const svg = trace(page, key).locator('svg[role=img]');
        const high = () => trace(page, key).evaluate((a) => a.getBoundingClientRect().height);
        await svg.scrollIntoViewIfNeeded();
        await page.mouse.move(1, 1);
        const before = await high();
        const box = (await svg.boundingBox())!;
        for (let i = 1; i < 12; i++) {
          await page.mouse.move(box.x + (box.width * i) / 12, box.y + box.height / 2);
          expect(await high(), `${key} at ${i}/12`).toBe(before);
        }
      }
    }
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('moves with the design', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await trace(page, 'wall.arc').waitFor();
    const before = await curve(page, 'wall.arc');
    await answered(page, () => type(page, 'preform.wall', '3.90 mm'));
    await expect.poll(() => curve(page, 'wall.arc')).not.toBe(before);
    await answered(page, () => page.keyboard.press('Control+Z'));
    await expect.poll(() => curve(page, 'wall.arc')).toBe(before);
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('hands over the table and the picture', async () => {
    const { page, faults } = await desk(browser, { permissions: ['clipboard-read', 'clipboard-write'] });
    await open(page, demo);
    await page.locator('[data-stage=shelf]').click();
    const loss = trace(page, 'shelf.loss');
    await loss.waitFor();
    const file = await handed(page, () => loss.getByRole('button', { name: /^CSV/ }).click());
    expect(file.name).toBe('sorrel-lime-shelf.loss.csv');
    const text = file.bytes.toString();
    const lines = text.trimEnd().split('\r\n');
    expect(text).toContain('Engineering estimate');
    const head = lines.findIndex((l) => l.startsWith('time [weeks],total [%]'));
    expect(head).toBeGreaterThan(0);
    const rows = lines.slice(head + 1).map((l) => l.split(',').map(Number));
    expect(rows.length).toBeGreaterThanOrEqual(81); // the even ones, and those round the hot stretch
    expect(rows.every((r, i) => i === 0 || r[0]! > rows[i - 1]![0]!)).toBe(true);
    const last = rows.at(-1)!;
    expect(last[1]).toBeCloseTo(
      last.slice(2).reduce((a, b) => a + b, 0),
      3,
    ); // the split adds up
    await loss.getByRole('button', { name: /^Picture/ }).click();
    await page.getByText('was copied as a picture').waitFor();
    const size = await page.evaluate(async () => {
      const [item] = await navigator.clipboard.read();
      const blob = await item!.getType('image/png');
      const bitmap = await createImageBitmap(blob);
      const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
      const pen = canvas.getContext('2d')!;
      pen.drawImage(bitmap, 0, 0);
      const data = pen.getImageData(0, 0, bitmap.width, bitmap.height).data;
      const colours = new Set<number>();
      for (let i = 0; i < data.length; i += 4)
        colours.add((data[i]! << 16) | (data[i + 1]! << 8) | data[i + 2]!);
      const bytes = new Uint8Array(await blob.arrayBuffer());
      const text = btoa(Array.from(bytes, (b) => String.fromCharCode(b)).join(''));
      return { width: bitmap.width, height: bitmap.height, colours: colours.size, text };
    });
    expect(size.width).toBeGreaterThan(400);
    expect(size.colours).toBeGreaterThan(20); // something is drawn on it
    // Below the drawing stand its lines by name, and the printed note.
    const drawn = (await loss.locator('svg[role=img]').boundingBox())!.height;
    expect(size.height).toBeGreaterThan(2 * (drawn + 30 + 22 + 12));
    await import('node:fs').then((fs) =>
      fs.writeFileSync(
        new URL('../../../artifacts/trace-copied.png', import.meta.url),
        Buffer.from(size.text, 'base64'),
      ),
    );
    expect(faults).toEqual([]);
    await leave(page);
  });
});
