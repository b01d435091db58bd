// How long the page takes, printed, not judged: a shared machine is no stopwatch. Few repeats here, all of
// them with COSTREL_BENCH=1 (make bench).
import type { Browser } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { address, desk, launch, leave, open } from './browser';

const demo = 'sorrel-lime.yaml';
const bench = process.env.COSTREL_BENCH === '1';
const repeats = bench ? 50 : 4;
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

const percentile = (list: number[], p: number) =>
  list.toSorted((a, b) => a - b)[Math.min(list.length - 1, Math.ceil((p / 100) * list.length) - 1)]!;

it('load to usable', async () => {
  const times: number[] = [];
  const loads = bench ? 5 : 1;
  for (let i = 0; i < loads; i++) {
    const { page } = await desk(browser, {}, true); // nothing read before
    await page.addInitScript(() => {
      const watch = new MutationObserver(() => {
        if (!document.querySelector('#board [data-key]') || !document.querySelector('.bottle .outline'))
          return;
        watch.disconnect();
        requestAnimationFrame(() => ((window as unknown as { usable: number }).usable = performance.now()));
      });
      watch.observe(document, { childList: true, subtree: true });
    });
    await page.goto(address(`/design/${demo}`));
    await page.waitForFunction(() => 'usable' in window);
    times.push(await page.evaluate(() => (window as unknown as { usable: number }).usable));
    await leave(page);
  }
  console.log(`load to usable, ms: ${times.map((t) => t.toFixed(0)).join(' ')}`);
  expect(times.length).toBe(loads);
});

// The hardest change, on which everything depends; one from which only the life
// and what follows it depend; one at the end of the way.
it.each([
  ['preform.wall', 3.5, 0.005, 'mm'],
  ['climate.store', 20, 0.05, '°C'],
  ['plant.resin_price', 1.1, 0.002, 'EUR/kg'],
])('input to board: %s', async (path, from, by, unit) => {
  const { page } = await desk(browser);
  await open(page, demo);
  const times = await page.evaluate(
    async ([path, from, by, unit, repeats]) => {
      const board = document.querySelector('#board')!;
      const input = document.querySelector<HTMLInputElement>(`[data-path="${path}"] input`)!;
      const out: number[] = [];
      input.focus();
      for (let i = 0; i < repeats; i++) {
        out.push(
          await new Promise<number>((resolve) => {
            const start = performance.now();
            const watch = new MutationObserver(() => {
              watch.disconnect();
              requestAnimationFrame(() => resolve(performance.now() - start));
            });
            watch.observe(board, { attributes: true, attributeFilter: ['data-answers'] });
            input.value = `${(from + by * i).toFixed(3)} ${unit}`;
            input.dispatchEvent(new InputEvent('input', { bubbles: true }));
          }),
        );
        // The traces follow the board; nobody types faster than this.
        await new Promise((resolve) => setTimeout(resolve, 100));
      }
      return out;
    },
    [path, from, by, unit, repeats] as const,
  );
  console.log(
    `input to board, ${path}, ms, of ${times.length}: median ${percentile(times, 50).toFixed(0)}, 95 % ${percentile(times, 95).toFixed(0)}, most ${Math.max(...times).toFixed(0)}`,
  );
  expect(times.length).toBe(repeats);
  await leave(page);
});

it.runIf(bench)('playback', { timeout: 240_000 }, async () => {
  const { page } = await desk(browser);
  await open(page, demo);
  await page.getByRole('button', { name: 'Run the blow' }).click();
  await page.locator('.playbar').waitFor({ timeout: 180_000 });
  await page.getByRole('button', { name: 'Play', exact: true }).click();
  const frames = await page.evaluate(
    () =>
      new Promise<number[]>((resolve) => {
        const times: number[] = [];
        const bar = document.querySelector('.playbar')!;
        const watch = new MutationObserver(() => {
          requestAnimationFrame(() => times.push(performance.now()));
        });
        watch.observe(bar, { attributes: true, attributeFilter: ['data-time'] });
        setTimeout(() => {
          watch.disconnect();
          resolve(times);
        }, 3000);
      }),
  );
  const gaps = frames.slice(1).map((t, i) => t - frames[i]!);
  console.log(
    `playback, frames a second: ${(1000 / (gaps.reduce((a, b) => a + b, 0) / gaps.length)).toFixed(0)}, ms between two: median ${percentile(gaps, 50).toFixed(0)}, 95 % ${percentile(gaps, 95).toFixed(0)}`,
  );
  expect(frames.length).toBeGreaterThan(2);
  await leave(page);
});
