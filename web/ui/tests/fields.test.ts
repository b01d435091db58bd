// What the drawing says along the wall at each stop, in preview and after a full run, and that nothing of the
// drawing moves when the playback comes.
import type { Browser, Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { accessible, answered, desk, handed, launch, leave, open, picture, type } from './browser';

let browser: Browser;
beforeAll(async () => void (browser = await launch()));

const stop = (page: Page, name: string) => page.locator(`button[data-stage=${name}]`).click();
const colour = (page: Page) => page.getByLabel('Wall coloured by');
const chosen = (page: Page) => colour(page).locator('option:checked').textContent();
const said = (page: Page) =>
  page
    .locator('.ramp .beside')
    .allTextContents()
    .then((t) => t.join().trim());
const place = (page: Page) =>
  page.evaluate(() =>
    ['.paper > svg', '.block', '.traces', '.runbar'].map((s) => {
      const { top, left, width, height } = document.querySelector(s)!.getBoundingClientRect();
      return [s, top, left, width, height].join(' ');
    }),
  );
const run = async (page: Page) => {
  await page.getByRole('button', { name: 'Run the blow' }).click();
  await page.locator('.runbar[data-full=true]').waitFor();
};

it('after a full run there is one wall, and no preview beside it unsaid', async () => {
  const { page, faults } = await desk(browser);
  await open(page, 'sorrel-lime.yaml');
  await picture(page, 'playbar-before');
  // The scale ends short of gate and neck and says how far they go.
  expect(await page.locator('.ramp').first().textContent()).toMatch(/\+ mm/);
  expect(await said(page)).toMatch(/^\+ up to \d.*mm$/);
  const before = await place(page);
  await run(page);
  await page.locator('.playbar').waitFor();
  const drawing = (list: string[]) => list.slice(0, 2);
  expect(drawing(await place(page))).toEqual(drawing(before));
  expect((await place(page)).at(-1)).toBe(before.at(-1));
  await accessible(page, 'playbar', '.told');
  await picture(page, 'playbar-after');
  const options = await colour(page).locator('option').allTextContents();
  expect(options.filter((o) => /wall thickness|wall as blown|wall along/i.test(o))).toEqual([
    'Wall thickness',
  ]);
  expect(options.filter((o) => /preview/.test(o))).toEqual([]);
  expect(options.some((o) => o.startsWith('Stretch of the blown wall'))).toBe(true);
  await stop(page, 'heat');
  expect(await chosen(page)).toBe('Preform temperature at blow, carried to the bottle');
  await picture(page, 'heat-after-run');
  await stop(page, 'fill');
  expect(await chosen(page)).toContain('Stress after thermal stability');
  await stop(page, 'blow');
  for (const key of ['wall.arc', 'wall.margin', 'stretch.arc']) {
    const card = page.locator(`[data-trace="${key}"]`);
    await card.waitFor();
    expect(await card.textContent(), key).not.toContain('not a blown wall');
    const file = await handed(page, () => card.getByRole('button', { name: /^CSV/ }).click());
    expect(file.bytes.toString(), key).not.toContain('not a blown wall');
  }
  expect(await page.locator('[data-trace="wall.arc"]').textContent()).toContain(
    '“blown” is the wall of the full',
  );
  // Measured points as they were typed.
  await stop(page, 'shelf');
  const trace = page.locator('[data-trace="shelf.carbonation"]');
  await trace.waitFor();
  const table = await handed(page, () => trace.getByRole('button', { name: /^CSV/ }).click());
  const cells = table.bytes.toString().split(/[\r\n,]+/);
  for (const typed of ['4.15', '4.12', '4.11', '4.06']) expect(cells).toContain(typed);
  expect(cells.filter((c) => /^4\.1(49|20)\d{3}/.test(c) && c.length < 10)).toEqual([]);
  expect(table.bytes.toString()).toContain('Time counts from filling');
  // No table has empty brackets. The browser would ask after ten downloads: here the files stay in the page.
  const tables = await page.evaluate(
    async (stops) => {
      const blobs: Blob[] = [];
      URL.createObjectURL = (b) => {
        blobs.push(b as Blob);
        return 'blob:none';
      };
      HTMLAnchorElement.prototype.click = () => {};
      for (const name of stops) {
        document.querySelector<HTMLElement>(`button[data-stage=${name}]`)!.click();
        await new Promise((resolve) => setTimeout(resolve, 50));
        for (const card of document.querySelectorAll('.traces article'))
          [...card.querySelectorAll('button')].find((b) => b.textContent?.startsWith('CSV'))!.click();
      }
      return Promise.all(blobs.map((b) => b.text()));
    },
    ['preform', 'heat', 'blow', 'fill', 'shelf', 'handling', 'opening'],
  );
  expect(tables.length).toBeGreaterThan(25);
  for (const text of tables) expect(text).not.toContain('[]');
  expect(faults).toEqual([]);
  await leave(page);
});

it('a pack without pressure is promised no stress', async () => {
  const { page, faults } = await desk(browser);
  await open(page, 'wrenhollow.yaml');
  const never = 'No stress along the wall: the pack holds no pressure.';
  await stop(page, 'fill');
  expect(await said(page)).toContain(never);
  await stop(page, 'heat');
  expect(await said(page)).toContain('Temperature along the wall comes with the full run.');
  await run(page);
  expect(await chosen(page)).toBe('Preform temperature at blow, carried to the bottle');
  await stop(page, 'fill');
  expect(await said(page)).toContain(never);
  await picture(page, 'fill-without-pressure');
  expect(faults).toEqual([]);
  await leave(page);
});

it('a blow that makes no bottle leaves the preview, and nothing calls it blown', async () => {
  const { page, faults } = await desk(browser);
  await open(page, 'sorrel-lime.yaml');
  await answered(page, () => type(page, 'blow.pre_blow', '1 bar(g)'));
  await answered(page, () => type(page, 'blow.high_blow', '2 bar(g)'));
  await run(page);
  expect(await page.locator('.runbar .state').textContent()).toContain('without a blown wall');
  expect(await page.locator('.told .fault').textContent()).toContain('does not fill the mould');
  // Its course can be played; the wall beside it is the preview and says so, and so does its table.
  await page.getByRole('button', { name: 'Show the blow' }).click();
  await expect
    .poll(() => page.locator('.paper').textContent())
    .toContain('draw-down preview, as on the board');
  const file = await handed(page, () => page.locator('.block').getByRole('button', { name: /^CSV/ }).click());
  expect(file.bytes.toString()).toContain('the wall is a draw-down estimate');
  await stop(page, 'heat');
  await page.getByRole('button', { name: 'Show the bottle' }).click();
  expect(await said(page)).toContain('No temperature along the wall: the blow made no bottle');
  expect(faults).toEqual([]);
  await leave(page);
});
