// What lies close together, and what is much taller than wide: all of it is seen and reached.
import type { Browser, Page } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { accessible, answered, desk, launch, leave, open, picture } from './browser';

const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

const grip = (page: Page, i: number) => page.locator(`.grip[data-plane="${i}"]`);
const height = async (page: Page, i: number) => Number(await grip(page, i).getAttribute('aria-valuenow'));

it('two cut planes 2 mm apart are both reached, by pointer and by keys, and no mass runs out of the frame', async () => {
  for (const viewport of [
    { width: 1280, height: 800 },
    { width: 820, height: 1180 },
    { width: 360, height: 740 },
  ]) {
    const { page, faults } = await desk(browser, { viewport });
    await page.route('**/api/designs/sorrel-lime.yaml', async (r) => {
      const answer = await r.fetch();
      const body = (await answer.json()) as { text: string };
      const planes = /(\n {2}planes:)[^\n]*/;
      expect(body.text).toMatch(planes);
      body.text = body.text.replace(planes, '$1 [188 mm, 190 mm]');
      await r.fulfill({ response: answer, json: body });
    });
    await open(page, demo);
    expect(await height(page, 0)).toBeCloseTo(188, 6);
    expect(await height(page, 1)).toBeCloseTo(190, 6);
    await grip(page, 0).scrollIntoViewIfNeeded();
    const top = await page.evaluate(() =>
      [0, 1].map((i) => {
        const e = document.querySelector(`.grip[data-plane="${i}"]`)!;
        const b = e.getBoundingClientRect();
        return [0.1, 0.5, 0.9].every((f) =>
          e.contains(document.elementFromPoint(b.x + b.width / 2, b.y + b.height * f)),
        );
      }),
    );
    expect(top).toEqual([true, true]);
    expect(await page.locator('.ties path').count()).toBe(2);
    // The lower one goes down by pointer, the upper one up by keys.
    const box = (await grip(page, 0).boundingBox())!;
    await answered(page, async () => {
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
      await page.mouse.down();
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2 + 12, { steps: 3 });
      await page.mouse.up();
    });
    expect(await height(page, 0)).toBeLessThan(187);
    expect(await height(page, 1)).toBeCloseTo(190, 6);
    await grip(page, 1).focus();
    await answered(page, () => page.keyboard.press('ArrowUp'));
    expect(await height(page, 1)).toBeCloseTo(191, 6);
    await answered(page, () => page.keyboard.press('Control+Z'));
    await answered(page, () => page.keyboard.press('Control+Z'));
    expect(await height(page, 0)).toBeCloseTo(188, 6);
    const out = await page.evaluate(() => {
      const frame = document.querySelector('.frame rect')!.getBoundingClientRect();
      return [...document.querySelectorAll('[data-dim^="section-"] text')]
        .filter((t) => {
          const b = t.getBoundingClientRect();
          return b.top < frame.top || b.bottom > frame.bottom || b.left < frame.left || b.right > frame.right;
        })
        .map((t) => t.textContent);
    });
    expect(out).toEqual([]);
    await accessible(page, 'planes close together', '.sheet');
    await picture(page, `planes-close-${viewport.width}`);
    expect(faults.filter((f) => !f.includes('409'))).toEqual([]);
    await leave(page);
  }
});

it('a tall shape uses the width of its trace, at one scale', async () => {
  const { page, faults } = await desk(browser);
  await open(page, demo);
  await page.getByRole('button', { name: 'Run the blow' }).click();
  await page.locator('.runbar[data-full=true]').waitFor({ timeout: 60_000 });
  await page.locator('[data-stage=handling]').click();
  for (const key of ['strength.buckle.section', 'strength.form']) {
    const trace = page.locator(`[data-trace="${key}"]`);
    await trace.locator('path.line').first().waitFor();
    for (const large of [false, true]) {
      if (large) await trace.getByRole('button', { name: /^Larger/ }).click();
      const [line, box] = [
        (await trace.locator('path.line').first().boundingBox())!,
        (await trace.locator('svg[role=img]').boundingBox())!,
      ];
      expect(line.width / box.width, key).toBeGreaterThan(0.7);
      expect(line.height, key).toBeLessThan(box.height);
      // One scale: the steps of both axes are as long as they say.
      const scale = await trace.evaluate((e) => {
        const ticks = [...e.querySelectorAll<SVGTextElement>('svg[role=img] text:not(.name)')].map((t) => ({
          v: Number(t.textContent!.replace('\u2212', '-')),
          x: Number(t.getAttribute('x')),
          y: Number(t.getAttribute('y')),
          end: t.getAttribute('text-anchor') === 'end',
        }));
        const [up, along] = [ticks.filter((t) => t.end), ticks.filter((t) => !t.end)];
        const a = (up[1]!.y - up[0]!.y) / (up[1]!.v - up[0]!.v);
        const b = (along[1]!.x - along[0]!.x) / (along[1]!.v - along[0]!.v);
        return Math.abs(a) / Math.abs(b);
      });
      expect(scale, key).toBeCloseTo(1, 2);
      await trace.scrollIntoViewIfNeeded();
      await picture(page, `shape-${key}-${large ? 'large' : 'small'}`);
      if (large) await trace.getByRole('button', { name: /^Larger/ }).click();
    }
  }
  await accessible(page, 'shapes', '.traces');
  expect(faults).toEqual([]);
  await leave(page);
});

it('the palette offers no stop without anything', async () => {
  const { page, faults } = await desk(browser);
  await open(page, 'wrenhollow.yaml');
  const stops = await page.locator('button[data-stage] .name').allTextContents();
  await page.keyboard.press('Control+K');
  await page.keyboard.type('Look at');
  const offered = (await page.locator('[role=option] .label').allTextContents())
    .filter((t) => t.startsWith('Look at: '))
    .map((t) => t.replace('Look at: ', '').trim());
  expect(offered.toSorted()).toEqual(['Whole life', ...stops.map((s) => s.trim())].toSorted());
  expect(faults).toEqual([]);
  await leave(page);
});
