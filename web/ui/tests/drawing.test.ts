// What can be changed on the drawing: dimensions that are typed, cut planes that are moved.
import type { Browser, Page, Route } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  accessible,
  answered,
  desk,
  field,
  handed,
  launch,
  leave,
  open,
  picture,
  row,
  settled,
  type,
  value,
} from './browser';

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});

const demo = 'sorrel-lime.yaml';

async function at(
  test: (page: Page) => Promise<void>,
  viewport = { width: 1280, height: 800 },
  allowed: RegExp[] = [], // complaints that the test brings about
): Promise<void> {
  const { page, faults } = await desk(browser, { viewport });
  try {
    await open(page, demo);
    await test(page);
    expect(faults.filter((f) => !allowed.some((a) => a.test(f)))).toEqual([]);
  } finally {
    await leave(page);
  }
}

const dimension = (page: Page, path: string) => page.locator(`[data-dimension="${path}"]`);
const undo = (page: Page) => answered(page, () => page.keyboard.press('Control+Z'));

describe('a dimension on the drawing', () => {
  it('takes another value with its unit, and gives it back', async () => {
    await at(async (page) => {
      const before = await value(page, 'preform.mass');
      await dimension(page, 'preform.wall').click();
      const box = page.getByRole('textbox', { name: 'Preform: Wall' }).last();
      expect(await box.inputValue()).toBe('3.6 mm');
      await answered(page, async () => {
        await page.keyboard.type('0.142 in');
        await page.keyboard.press('Enter');
      });
      expect(await value(page, 'preform.mass')).not.toBe(before);
      expect(await page.locator('[data-dim=preform-wall]').textContent()).toContain('3.61');
      expect(await field(page, 'preform.wall').inputValue()).toBe('0.142 in');
      await undo(page);
      expect(await value(page, 'preform.mass')).toBe(before);
    });
  });

  it('changes the height and the diameter with the given profile along', async () => {
    await at(async (page) => {
      await dimension(page, 'bottle.height').click();
      await answered(page, async () => {
        await page.keyboard.type('309');
        await page.keyboard.press('Enter'); // a bare number is in the unit of the sheet
      });
      expect(await value(page, 'bottle.height')).toContain('309');
      await dimension(page, 'bottle.diameter').click();
      await answered(page, async () => {
        await page.keyboard.type('10.2 cm');
        await page.keyboard.press('Enter');
      });
      expect(await value(page, 'bottle.diameter')).toContain('102');
      expect(await page.locator('.unusable, [data-fault=true]').count()).toBe(0);
      await undo(page);
      await undo(page);
      expect(await value(page, 'bottle.height')).toContain('305');
    });
  });

  it('tells in words what cannot be taken, and leaves it on Escape', async () => {
    await at(async (page) => {
      await dimension(page, 'preform.wall').focus();
      await page.keyboard.press('Enter');
      for (const [text, told] of [
        ['90 mm', /above/],
        ['3 bar(g)', /bar\(g\)/],
      ] as const) {
        await page.keyboard.press('Control+A');
        await page.keyboard.type(text);
        await page.keyboard.press('Enter');
        await expect.poll(() => page.locator('.dims [role=alert]').textContent()).toMatch(told);
      }
      await accessible(page, 'a wrong dimension', '.sheet');
      await picture(page, 'dimension-wrong');
      // Left for another dimension, it stays with its reason.
      await dimension(page, 'bottle.base.standing_diameter').click();
      await page.keyboard.press('Escape');
      const box = page.locator('.dims input');
      expect(await box.inputValue()).toBe('3 bar(g)');
      expect(await page.locator('.dims [role=alert]').textContent()).toMatch(/bar\(g\)/);
      await box.press('Escape');
      expect(await box.count()).toBe(0);
      expect(await page.evaluate(() => document.activeElement?.getAttribute('data-dimension'))).toBe(
        'preform.wall',
      );
      // What contradicts the rest of the design is told, too.
      await dimension(page, 'bottle.diameter').click();
      await page.keyboard.type('27 mm');
      await page.keyboard.press('Enter');
      await expect.poll(() => page.locator('.dims [role=alert]').textContent()).toMatch(/\S/);
      await page.keyboard.press('Escape');
      expect(await page.getByRole('button', { name: 'Undo', exact: true }).isDisabled()).toBe(true);
    });
  });
});

describe('a cut plane', () => {
  it('is dragged, with the grams of its sections, as one step', async () => {
    await at(async (page) => {
      const grip = page.locator('[data-plane="1"]');
      const before = await grip.getAttribute('aria-valuenow');
      const grams = await value(page, 'section.shoulder.mass');
      const thin = await value(page, 'wall.min');
      const box = (await grip.boundingBox())!;
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      await answered(page, async () => {
        await page.mouse.move(x, y);
        await page.mouse.down();
        await page.mouse.move(x, y + 12, { steps: 4 });
        expect(await page.locator('[data-note="1"]').textContent()).toMatch(
          /shoulder [\d.]+\sg.*panel [\d.]+\sg/,
        );
        await picture(page, 'plane-dragged');
        await page.mouse.up();
      });
      await settled(page);
      expect(Number(await grip.getAttribute('aria-valuenow'))).toBeLessThan(Number(before));
      // The shoulder gains what the panel loses; no plastic has moved.
      expect(Number.parseFloat((await value(page, 'section.shoulder.mass'))!)).toBeGreaterThan(
        Number.parseFloat(grams!),
      );
      expect(await value(page, 'wall.min')).toBe(thin);
      await page.getByRole('button', { name: 'Text', exact: true }).click();
      const planes = /planes: \[60 mm, (\d+) mm\]/.exec(
        await page.getByLabel('The design file').inputValue(),
      );
      expect(Number(planes?.[1])).toBeCloseTo(Number(await grip.getAttribute('aria-valuenow')), 6);
      await page.getByRole('button', { name: 'Inputs', exact: true }).click();
      await undo(page);
      expect(await grip.getAttribute('aria-valuenow')).toBe(before);
      expect(await value(page, 'section.shoulder.mass')).toBe(grams);
    });
  });

  it('keeps to the pointer after a full run, which is worked out again by itself', async () => {
    await at(async (page) => {
      const full = page.locator('.runbar[data-full=true]');
      await page.getByRole('button', { name: 'Run the blow' }).click();
      await full.waitFor();
      const burst = await value(page, 'burst.pressure');
      const grip = page.locator('[data-plane="1"]');
      const now = async () => Number(await grip.getAttribute('aria-valuenow'));
      const told = () => grip.getAttribute('aria-valuetext');
      const scale = async () => {
        const [a, b] = await page
          .locator('[data-plane]')
          .evaluateAll((g) =>
            g.map((e) => [e.getBoundingClientRect().top, Number(e.getAttribute('aria-valuenow'))] as const),
          );
        return (a![0] - b![0]) / (b![1] - a![1]); // px a mm
      };
      const [from, rest, perMm] = [await now(), await told(), await scale()];
      const box = (await grip.boundingBox())!;
      const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
      const top = () => page.locator('.paper > svg').evaluate((e) => e.getBoundingClientRect().top);
      const origin = await top();
      await page.mouse.move(x, y);
      await page.mouse.down();
      let live = '';
      for (let k = 1; k <= 5; k++) {
        await page.mouse.move(x, y + 4 * k);
        await page.waitForTimeout(60);
        expect(Math.abs((await now()) - (from - (4 * k) / perMm))).toBeLessThanOrEqual(1);
        expect(await top()).toBe(origin);
        expect(await told()).not.toBe(live); // height and grams go with the pointer
        live = (await told())!;
      }
      await page.mouse.up();
      await settled(page);
      expect(await top()).toBe(origin);
      expect(await full.count()).toBe(1);
      const grams = (t: string | null) => [...t!.matchAll(/([\d.]+)\sg/g)].map((m) => Number(m[1]));
      const [here, server] = [grams(live), grams(await told())];
      expect(here[0]).not.toBe(grams(rest)[0]);
      for (const [i, g] of server.entries()) expect(Math.abs(g - here[i]!)).toBeLessThanOrEqual(0.011);
      expect(await value(page, 'burst.pressure')).toBe(burst);
      // Keys after the drag are a step of their own; Escape gives a drag up.
      const dragged = await now();
      await page.keyboard.press('ArrowUp');
      await settled(page);
      expect(await now()).toBeCloseTo(dragged + 1, 6);
      await undo(page);
      expect(await now()).toBeCloseTo(dragged, 6);
      await page.mouse.move(x, (await grip.boundingBox())!.y + 9);
      await page.mouse.down();
      await page.mouse.move(x, y - 30, { steps: 3 });
      expect(await now()).not.toBeCloseTo(dragged, 6);
      await page.keyboard.press('Escape');
      await page.mouse.move(x, y - 50, { steps: 2 });
      await page.mouse.up();
      await settled(page);
      expect(await now()).toBeCloseTo(dragged, 6);
      await undo(page);
      expect(await now()).toBeCloseTo(from, 6);
      // A price moves nothing of the blow either.
      await answered(page, () => type(page, 'plant.resin_price', '1.37 EUR/kg'));
      expect(await full.count()).toBe(1);
      expect(await value(page, 'burst.pressure')).toBe(burst);
    });
  });

  // Every frame is looked at, with answers that are slow to come: whatever is told in between has its own room.
  for (const [width, height] of [
    [1280, 800],
    [1100, 800],
    [820, 1180],
  ] as const)
    it(`finds the drawing in its place whatever is told, ${width} wide`, async () => {
      await at(
        async (page) => {
          const full = page.locator('.runbar[data-full=true]');
          await page.getByRole('button', { name: 'Run the blow' }).click();
          await full.waitFor();
          const grip = page.locator('[data-plane="1"]');
          const slow = (ms: number) => async (r: Route) => {
            await new Promise((go) => setTimeout(go, ms));
            await r.continue().catch(() => undefined); // withdrawn by then
          };
          await page.route('**/api/check', slow(500));
          await page.route('**/api/runs', slow(500));
          await page.evaluate(() => {
            const seen = ((window as unknown as { seen: Record<string, string> }).seen = {});
            const look = (): void => {
              const y = document.querySelector('.paper > svg')!.getBoundingClientRect().top + scrollY;
              const told = document.querySelector('.runbar')!.textContent!.replace(/\s+/g, ' ');
              Object.assign(seen, { [Math.round(y * 10) / 10]: told });
              requestAnimationFrame(look);
            };
            look();
          });
          const seen = () => page.evaluate(() => (window as unknown as { seen: object }).seen);
          const drag = async (dy: number) => {
            const box = (await grip.boundingBox())!;
            const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
            await page.mouse.move(x, y);
            await page.mouse.down();
            for (let k = 1; k <= 4; k++) {
              await page.mouse.move(x, y + dy * k);
              await page.waitForTimeout(60);
            }
            await page.mouse.up();
          };
          await drag(3);
          await page.getByText('Waiting for a place to compute').first().waitFor();
          await drag(2); // while the run of the drag before is under way
          await settled(page);
          await full.waitFor();
          expect(Object.keys(await seen()), JSON.stringify(await seen())).toHaveLength(1);
          // Another wall, one that no other test blows, makes a preview; a run begins, and the next change
          // withdraws it.
          await answered(page, () => type(page, 'preform.wall', `3.7${width} mm`));
          await page.getByRole('button', { name: 'Run the blow' }).click();
          await page.getByText('Waiting for a place to compute').first().waitFor();
          await answered(page, () => type(page, 'climate.hot', '10 °C')); // colder than the store
          await page.locator('.problems').waitFor();
          await picture(page, `told-${width}`);
          // A server that is away.
          await page.route('**/api/check', (r) => r.abort());
          await type(page, 'climate.hot', '38 °C');
          await page.getByText('The server does not answer.').waitFor();
          expect(Object.keys(await seen()), JSON.stringify(await seen())).toHaveLength(1);
        },
        { width, height },
        [/ERR_FAILED/],
      );
    });

  it('is moved with the keys', async () => {
    await at(async (page) => {
      const grip = page.locator('[data-plane="0"]');
      await grip.focus();
      await answered(page, () => page.keyboard.press('ArrowUp'));
      expect(Number(await grip.getAttribute('aria-valuenow'))).toBeCloseTo(61, 6);
      expect(await grip.getAttribute('aria-valuetext')).toMatch(/61\.0 mm, base [\d.]+\sg, panel [\d.]+\sg/);
      await answered(page, () => page.keyboard.press('Shift+ArrowDown'));
      expect(Number(await grip.getAttribute('aria-valuenow'))).toBeCloseTo(51, 6);
      await accessible(page, 'a plane with the focus', '.sheet');
      await undo(page);
      expect(Number(await grip.getAttribute('aria-valuenow'))).toBeCloseTo(60, 6);
      expect(await row(page, 'section.base.mass').count()).toBe(1);
    });
  });
});

it('the drawing is handed over as a picture and as a table, with the printed note', async () => {
  await at(async (page) => {
    await page.evaluate(() => {
      navigator.clipboard.write = () => Promise.reject(new Error('not here'));
    });
    const hand = page.locator('.block .hand');
    const saved = (name: RegExp) => handed(page, () => hand.getByRole('button', { name }).click());
    const table = await saved(/CSV/);
    expect(table.name).toBe('sorrel-lime-section.csv');
    const lines = table.bytes.toString('utf8').trimEnd().split('\r\n');
    expect(lines[1]).toContain('does not replace qualified laboratory validation');
    expect(lines[2]).toBe('Height [mm],Outer radius [mm],Wall thickness [mm]');
    expect(lines.length).toBeGreaterThan(200);
    const picture = await saved(/Picture/);
    expect(picture.name).toBe('sorrel-lime-section.png');
    expect(picture.bytes.subarray(1, 4).toString()).toBe('PNG');
    expect(picture.bytes.length).toBeGreaterThan(20_000);
  });
});

it('the wall is coloured by a field along it, with its own scale', async () => {
  await at(async (page) => {
    const fills = () =>
      page
        .locator('.bottle path[stroke-width="0.6"]')
        .evaluateAll((p) => p.map((e) => e.getAttribute('fill')));
    const wall = await fills();
    const colour = page.getByLabel('Wall coloured by');
    await expect.poll(() => colour.locator('option').count()).toBeGreaterThan(1);
    await colour.selectOption({ label: 'Stretch by the draw-down preview: axial' });
    expect(await fills()).not.toEqual(wall);
    expect(await page.locator('.ramp').first().textContent()).not.toContain('mm');
    await accessible(page, 'coloured by stretch', '.sheet');
    await colour.selectOption('');
    expect(await fills()).toEqual(wall);
    // Each stop has its own field, and says so where it takes the full run; the drawing stays in view.
    const stop = (name: string) => page.locator(`button[data-stage=${name}]`).click();
    for (const [name, option, later] of [
      ['preform', /Stretch by the draw-down preview/, ''],
      ['heat', /Wall thickness/, 'Temperature along the wall comes with the full run.'],
      ['fill', /Wall thickness/, 'Stress along the wall comes with the full run.'],
      ['shelf', /Barrier along the wall, CO2/, ''],
      ['handling', /Margin of the wall/, ''],
      ['opening', /Wall thickness/, ''],
    ] as const) {
      await stop(name);
      expect(await colour.locator('option:checked').textContent(), name).toMatch(option);
      expect(await page.locator('.ramp .later').allTextContents(), name).toEqual(later === '' ? [] : [later]);
      expect(
        await page.locator('.paper > svg').evaluate((e) => e.getBoundingClientRect().top),
      ).toBeGreaterThan(0);
    }
    await stop('shelf');
    expect(await page.locator('.ramp').first().textContent()).toContain('cc/(m²·d·atm)');
    await page.getByRole('slider', { name: /Reading/ }).focus();
    for (let i = 0; i < 3; i++) await page.keyboard.press('PageUp');
    expect(await page.locator('.block output').textContent()).toMatch(
      /(Barrier along the wall, CO2|let through at 23 °C) \d/,
    );
    // The solid stands beside the section and shows the same.
    await page.getByRole('button', { name: '3-D view' }).click();
    const solid = page.locator('#solid');
    await solid.locator('.field').waitFor();
    expect(await solid.locator('.field').textContent()).toContain('Barrier along the wall');
    const [a, b] = [(await solid.boundingBox())!, (await page.locator('.sheet').boundingBox())!];
    expect(a.x).toBeGreaterThanOrEqual(b.x + b.width - 1);
    expect(a.y).toBeLessThan(b.y + 40);
  });
});
