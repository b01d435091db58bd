// The copied drawing: its colours are told by a bar with their two ends, in the words of the field.
import type { Browser, Page } from 'playwright-core';
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, it } from 'vitest';
import { desk, handed, launch, leave, open } from './browser';

const artifacts = join(import.meta.dirname, '../../../artifacts');
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

/** Notes every text and every colour that is painted on a canvas from now on. */
const listen = (page: Page) =>
  page.evaluate(() => {
    const pen = CanvasRenderingContext2D.prototype;
    const note = window as unknown as { texts: string[]; bars: string[] };
    note.texts = [];
    note.bars = [];
    const { fillText, fillRect } = pen;
    pen.fillText = function (this: CanvasRenderingContext2D, text: string, ...at: [number, number]) {
      note.texts.push(text);
      fillText.call(this, text, ...at);
    };
    pen.fillRect = function (this: CanvasRenderingContext2D, ...box: [number, number, number, number]) {
      if (box[3] === 12) note.bars.push(String(this.fillStyle));
      fillRect.call(this, ...box);
    };
    navigator.clipboard.write = () => Promise.reject(new Error('not here'));
  });
const painted = (page: Page) =>
  page.evaluate(() => {
    const note = window as unknown as { texts: string[]; bars: string[] };
    const own = { texts: note.texts, bars: note.bars };
    [note.texts, note.bars] = [[], []];
    return own;
  });

it('has the scale of its colours beneath it', async () => {
  for (const viewport of [
    { width: 1280, height: 800 },
    { width: 360, height: 740 },
  ]) {
    const { page, faults } = await desk(browser, { viewport });
    await open(page, 'sorrel-lime.yaml');
    await listen(page);
    for (const [stage, field, end] of [
      ['shelf', /Wall coloured by: Barrier along the wall, CO2/, /cc\/\(m²·d·atm\)/],
      ['blow', /Wall coloured by: Wall thickness/, /mm/],
    ] as const) {
      await page.locator(`button[data-stage=${stage}]`).click();
      const file = await handed(page, () =>
        page
          .locator('.block .hand')
          .getByRole('button', { name: /Picture/ })
          .click(),
      );
      mkdirSync(artifacts, { recursive: true });
      writeFileSync(join(artifacts, `section-copied-${stage}-${viewport.width}.png`), file.bytes);
      const { texts, bars } = await painted(page);
      const all = texts.join(' ');
      expect(all).toMatch(field);
      expect(all).toMatch(end);
      expect(all).not.toContain('co2');
      expect(texts[0]).toBe('Sorrel Lime 1.75 L');
      expect(new Set(bars).size).toBeGreaterThan(20);
    }
    expect(faults).toEqual([]);
    await leave(page);
  }
});
