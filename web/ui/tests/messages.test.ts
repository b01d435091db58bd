// What is wrong is said so that a reader can act on it: with its subject, its limits, its spelling.
import type { Browser } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { answered, desk, fault, launch, leave, open, type } from './browser';

const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

describe('messages', () => {
  it('of the text name subject and limits in the list of faults', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await page.locator('.modes').getByRole('button', { name: 'Text', exact: true }).click();
    const area = page.getByRole('textbox', { name: 'The design file' });
    const text = await area.inputValue();
    await answered(page, () =>
      area.fill(
        text
          .replace('rate: 28800 b/h', 'rate: 3 b/h')
          .replace('  wall: 3.60 mm', '  wall: 3.60 mm\n  wall: 3.70 mm'),
      ),
    );
    const list = page.locator('section.problems');
    await expect.poll(() => list.textContent()).toContain('3 b/h is outside the accepted range');
    expect(await list.textContent()).toContain('100 b/h to 150000 b/h');
    expect(await list.textContent()).toContain('key "wall" stands twice; the first is on line');
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('of an input say in words what a part of one is, and how a whole number is written', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    for (const [path, typed, told] of [
      ['resin.recycled', '25', /“25” has no unit. Write one of %, ppm, 1 \(a part of one, as in 0.25 1\)/],
      ['bottle.base.feet', '-2', /-2 is below \d+, the least that can be computed/],
      ['bottle.base.feet', '1e9', /1e9 is above \d+, the most that can be computed/],
      ['bottle.base.feet', '5e0', /Write “5e0” in digits: 5\./],
    ] as const) {
      await type(page, path, typed);
      await expect.poll(() => fault(page, path).textContent(), { message: `${path} ${typed}` }).toMatch(told);
      await page.keyboard.press('Escape');
    }
    expect(faults).toEqual([]);
    await leave(page);
  });
});
