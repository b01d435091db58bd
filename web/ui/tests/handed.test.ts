// What the traces and the drawing hand over: tables with every digit, pictures that are light.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { answered, desk, handed, launch, leave, open } from './browser';

const artifacts = join(import.meta.dirname, '../../../artifacts');
const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

const trace = (page: Page, key: string) => page.locator(`[data-trace="${key}"]`);

describe('handed over', () => {
  it('hands over every digit that it was given, in either system of units', async () => {
    const { page, faults } = await desk(browser);
    type Axis = { quantity: string };
    type Plot = { key: string; x: Axis; y: Axis; series: { name: string; x: number[]; y: number[] }[] };
    let plots: Plot[] = [];
    let kinds: { kind: string; units: { symbol: string; scale: number; offset: number }[] }[] = [];
    await page.route('**/api/units', async (r) => {
      const answer = await r.fetch();
      ({ kinds } = (await answer.json()) as { kinds: typeof kinds });
      await r.fulfill({ response: answer });
    });
    await page.route('**/api/check', async (r) => {
      const answer = await r.fetch();
      ({ plots } = (await answer.json()) as { plots: Plot[] });
      await r.fulfill({ response: answer });
    });
    await open(page, demo);
    for (const system of [/EU/, /US/]) {
      const radio = page.getByRole('radio', { name: system });
      if (!(await radio.isChecked())) await answered(page, () => radio.check());
      for (const stage of ['preform', 'shelf']) {
        await page.locator(`[data-stage=${stage}]`).first().click();
        const shown = page.locator('[data-trace]');
        await shown.first().waitFor();
        for (const key of await shown.evaluateAll((l) => l.map((e) => (e as HTMLElement).dataset.trace!))) {
          const plot = plots.find((p) => p.key === key);
          if (!plot) continue; // a map
          const button = trace(page, key).getByRole('button', { name: /^CSV/ });
          const lines = (await handed(page, () => button.click())).bytes.toString().trimEnd().split('\r\n');
          const first = plot.series[0]!;
          const at = lines.length - Math.max(...plot.series.map((s) => s.x.length));
          const head = lines[at - 1]!;
          const symbols = [...head.matchAll(/\[([^\]]*)\]/g)].map((m) => m[1]!);
          const back = (kind: string, cell: string, symbol: string) => {
            const unit = kinds.find((k) => k.kind === kind)!.units.find((u) => u.symbol === symbol);
            return unit ? Number(cell) * unit.scale + unit.offset : Number(cell);
          };
          const [ux, uy] = [symbols[0] ?? '', symbols.length > 1 ? symbols[1]! : ''];
          first.x.forEach((x, i) => {
            const [cx, cy] = lines[at + i]!.split(',');
            for (const [kind, cell, symbol, si] of [
              [plot.x.quantity, cx!, ux, x],
              [plot.y.quantity, cy!, uy, first.y[i]!],
            ] as const) {
              const off = Math.abs(back(kind, cell, symbol) - si);
              expect(off, `${key} ${i}: ${cell} ${symbol} of ${si}`).toBeLessThanOrEqual(
                4e-16 * Math.max(Math.abs(si), 1e-300) + (/°/.test(symbol) ? 1e-13 : 0),
              );
            }
          });
        }
      }
    }
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('hands over a light picture with legend and scale from a dark page', async () => {
    const { page, faults } = await desk(browser, {
      colorScheme: 'dark',
      permissions: ['clipboard-read', 'clipboard-write'],
    });
    await open(page, demo);
    const brightness = (colour: string) =>
      colour
        .match(/[\d.]+/g)!
        .slice(0, 3)
        .reduce((sum, v) => sum + Number(v) / 3, 0);
    const film = () => page.locator('.traces').evaluate((e) => getComputedStyle(e).backgroundColor);
    expect(brightness(await film())).toBeLessThan(80); // the page is dark
    // What the clipboard holds: its paper, and how much ink of which brightness stands in each part.
    const copied = () =>
      page.evaluate(async () => {
        const [item] = await navigator.clipboard.read();
        const blob = await item!.getType('image/png');
        const bitmap = await createImageBitmap(blob);
        const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
        const pen = canvas.getContext('2d')!;
        pen.drawImage(bitmap, 0, 0);
        const { data } = pen.getImageData(0, 0, bitmap.width, bitmap.height);
        const at = (i: number) => (data[i]! + data[i + 1]! + data[i + 2]!) / 3;
        const paper = at(0);
        let light = 0;
        const ink = Array.from({ length: bitmap.height }, (_, y) => {
          let n = 0;
          for (let x = 0; x < bitmap.width; x++) {
            const v = at(4 * (y * bitmap.width + x));
            if (v < 140) n++;
            if (Math.abs(v - paper) < 3) light++;
          }
          return n;
        });
        const bytes = new Uint8Array(await blob.arrayBuffer());
        const text = btoa(Array.from(bytes, (b) => String.fromCharCode(b)).join(''));
        return { paper, light: light / (bitmap.width * bitmap.height), ink, height: bitmap.height, text };
      });
    const inked = (rows: readonly number[]) => rows.filter((n) => n > 0).length;
    const keep = (name: string, text: string) => {
      mkdirSync(artifacts, { recursive: true });
      writeFileSync(join(artifacts, name), Buffer.from(text, 'base64'));
    };

    await page.locator('[data-stage=shelf]').click();
    const loss = trace(page, 'shelf.loss');
    await loss.waitFor();
    await loss.getByRole('button', { name: /^Picture/ }).click();
    await page.getByText('was copied as a picture').waitFor();
    const plot = await copied();
    keep('picture-plot-from-dark.png', plot.text);
    expect(plot.paper).toBeGreaterThan(235);
    expect(plot.light).toBeGreaterThan(0.5);
    const box = (await loss.locator('svg[role=img]').boundingBox())!;
    const drawnTo = plot.height - 2 * box.height; // what is left holds title, legend and note
    expect(drawnTo).toBeGreaterThan(2 * (18 + 22 + 12));
    expect(inked(plot.ink.slice(0, 2 * 26))).toBeGreaterThan(10); // the title
    expect(inked(plot.ink.slice(Math.round(2 * (30 + box.height))))).toBeGreaterThan(30); // legend and note
    expect(inked(plot.ink.slice(2 * 30, Math.round(2 * (30 + box.height))))).toBeGreaterThan(box.height); // the plot

    await page
      .locator('.block .hand')
      .getByRole('button', { name: /Picture/ })
      .click();
    await expect.poll(async () => (await copied()).text !== plot.text).toBe(true);
    const section = await copied();
    keep('picture-section-from-dark.png', section.text);
    expect(section.paper).toBeGreaterThan(235);
    expect(section.light).toBeGreaterThan(0.4);
    expect(Math.max(...section.ink)).toBeGreaterThan(80); // the bar of the scale, or longer lines
    // The page is as dark as it was.
    expect(brightness(await film())).toBeLessThan(80);
    expect(faults).toEqual([]);
    await leave(page);
  });
});
