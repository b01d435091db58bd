// The full run and the playback of its blow.
import type { Browser, Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  accessible,
  answered,
  desk,
  focused,
  launch,
  leave,
  open,
  picture,
  row,
  settled,
  type,
  value,
} from './browser';

const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

const bar = (page: Page) => page.locator('.runbar');
const told = (page: Page) => page.locator('.told');
const start = (page: Page) => page.getByRole('button', { name: 'Run the blow' }).click();
const blown = (page: Page) => page.locator('.runbar[data-full=true]').waitFor();

/**
 * Asks why of every figure on the board, one after the other, and says of which the answer is empty: no
 * number, or neither method nor source of it.
 */
const reasons = (page: Page) =>
  page.evaluate(async () => {
    const keys = new Set(
      [...document.querySelectorAll('#board button[data-key]')].map((b) => b.getAttribute('data-key')!),
    );
    if (keys.size < 80) return [`only ${keys.size} figures`];
    const empty: string[] = [];
    const moment = () => new Promise((resolve) => setTimeout(resolve));
    for (const key of keys) {
      document.querySelector<HTMLElement>(`#board button[data-key="${key}"]`)!.click();
      const why = () => document.getElementById('why');
      const began = performance.now();
      while ((!why() || why()!.querySelector('[role=status]')) && performance.now() - began < 5000)
        await moment();
      const known = why()?.querySelector('.value strong')?.textContent?.trim() ?? '';
      const heads = [...(why()?.querySelectorAll('h3') ?? [])].map((h) => h.textContent?.trim());
      const given = /given|default|assumed/.test(why()?.querySelector('.kind')?.textContent ?? '');
      if (known === '' || !(given || heads.includes('Method')) || why()!.querySelector('[role=alert]'))
        empty.push(`${key}: “${known}”, ${heads.join(', ')}`);
    }
    return empty;
  });

/** The events of a run, as a slow server would send them. */
const slowRun = (page: Page, body: string) =>
  page.route('**/api/runs', (r) => r.fulfill({ contentType: 'text/event-stream', body }));

describe('full run', () => {
  it('is left while it is under way, without a complaint of the browser', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await answered(page, () => type(page, 'preform.wall', '3.57 mm'));
    for (let i = 0; i < 2; i++) {
      await start(page);
      await page.waitForFunction(() => /%/.test(document.querySelector('.runbar .now')?.textContent ?? ''));
      await page.evaluate(() => (location.hash = '#/'));
      await page.locator('h1').waitFor();
      await page.waitForTimeout(300);
      await page.evaluate((name) => (location.hash = `#/design/${name}`), demo);
      await page.locator('[data-key]').first().waitFor();
      await settled(page);
    }
    await answered(page, () => page.keyboard.press('Control+Z'));
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('keeps the preview until the blown wall replaces it', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    expect(await bar(page).textContent()).toContain('draw-down estimate');
    // A wall of its own: what another test has blown would be there at once.
    await answered(page, () => type(page, 'preform.wall', '3.605 mm'));
    const before = await value(page, 'wall.min');
    expect(await row(page, 'blow.fill.time').locator('span.value').count()).toBe(0);
    await start(page);
    const progress = page.getByRole('progressbar');
    await progress.waitFor();
    expect(await value(page, 'wall.min')).toBe(before);
    await page.waitForFunction(() => /%/.test(document.querySelector('.runbar .now')?.textContent ?? ''));
    await accessible(page, 'running', '.bars');
    await picture(page, 'run-progress');
    await blown(page);
    expect(await value(page, 'wall.min')).not.toBe(before);
    expect(await value(page, 'blow.fill.time')).toMatch(/\d/);
    await page.locator('[data-stage=blow]').click();
    const wall = page.locator('[data-trace="wall.arc"]');
    await wall.waitFor();
    await expect.poll(() => wall.locator('.legend').textContent()).toMatch(/draw-down preview.*blown/s);
    expect(await wall.locator('path.line.dashed').count()).toBeGreaterThan(0);
    await page.locator('[data-trace="blow.pressure"]').waitFor();
    await accessible(page, 'blown', '.centre');
    await picture(page, 'run-done-1280-light');
    // A change leaves the last full run visible, marked as older; undo brings it back as it was.
    await answered(page, () => type(page, 'preform.wall', '3.62 mm'));
    expect(await bar(page).textContent()).toContain('from before the changes');
    await page.locator('[data-trace="blow.pressure"][data-stale=true]').waitFor();
    expect(await page.locator('[data-trace="blow.pressure"]').textContent()).toContain(
      'From the last full run',
    );
    expect(await wall.getAttribute('data-stale')).toBe('false');
    await accessible(page, 'stale run', '.centre');
    await picture(page, 'run-stale');
    await answered(page, () => page.keyboard.press('Control+Z'));
    expect(await bar(page).getAttribute('data-full')).toBe('true');
    await page.locator('[data-trace="blow.pressure"][data-stale=false]').waitFor();
    // Other units: the same run is shown in them.
    await page.getByRole('radio', { name: /US/ }).check();
    await page.waitForFunction(() => /psi/.test(document.querySelector('.playbar')?.textContent ?? ''));
    await blown(page);
    await settled(page);
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('has a chain behind every figure', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await start(page);
    await blown(page);
    expect(await reasons(page)).toEqual([]);
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('is cancelled by the reader, and withdrawn by a change', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await answered(page, () => type(page, 'preform.wall', '3.63 mm'));
    // Asked for while a change is under way, it starts when that has come back.
    await type(page, 'preform.wall', '3.66 mm');
    await page.keyboard.press('Control+Enter');
    // It is one button: who starts the run with a key cancels it with the next.
    await page.getByRole('button', { name: 'Cancel the run' }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('button', { name: 'Run the blow' }).waitFor();
    expect(await focused(page)).toBe('run');
    expect(await bar(page).getAttribute('data-full')).toBe('false');
    await start(page);
    await page.getByRole('progressbar').waitFor();
    await answered(page, () => type(page, 'preform.wall', '3.64 mm'));
    await page.getByText('The run was withdrawn').waitFor();
    expect(await page.getByRole('progressbar').count()).toBe(0);
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('says why a blow failed and leaves the preview', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await answered(page, () => type(page, 'preform.wall', '6 mm'));
    const before = await value(page, 'wall.min');
    await start(page);
    await told(page).getByRole('alert').waitFor();
    expect(await told(page).textContent()).toContain('larger than the mould');
    expect(await value(page, 'wall.min')).toBe(before);
    expect(await page.locator('.playbar').count()).toBe(0);
    await accessible(page, 'failed blow', '.centre');
    await picture(page, 'run-failed');
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('says when the run broke off or the server refused it', async () => {
    const { page } = await desk(browser);
    await open(page, demo);
    await slowRun(page, 'event: progress\ndata: {"stage":"blow","fraction":0.5}\n\n');
    await start(page);
    await page.getByText('The run broke off').waitFor();
    await page.unroute('**/api/runs');
    await slowRun(page, 'event: failed\ndata: {"message":"the design has faults","problems":[]}\n\n');
    await start(page);
    await page.getByText('the design has faults').waitFor();
    await leave(page);
  });

  it('starts by itself once that is switched on', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await page.getByLabel('run by itself after changes').check();
    await blown(page);
    await answered(page, () => type(page, 'preform.wall', '3.58 mm'));
    expect(await bar(page).getAttribute('data-full')).toBe('false');
    await blown(page);
    expect(faults).toEqual([]);
    await leave(page);
  });
});

describe('playback', () => {
  it('scrubs, steps, plays, links the traces', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await start(page);
    await blown(page);
    const play = page.locator('.playbar');
    const time = () => play.getAttribute('data-time').then(Number);
    const skin = () => page.locator('.blow .skin').getAttribute('d');
    await page.getByRole('button', { name: 'Show the blow' }).click();
    expect(await page.locator('.bottle').count()).toBe(0);
    const first = await skin();
    await page.getByRole('button', { name: 'One frame on' }).click();
    const second = await time();
    expect(second).toBeGreaterThan(0);
    expect(await skin()).not.toBe(first);
    await page.getByRole('button', { name: 'One frame back' }).click();
    expect(await time()).toBe(0);
    const scrub = page.getByRole('slider', { name: 'Time of the blow' });
    await scrub.evaluate((e: HTMLInputElement) => {
      e.value = String(Number(e.max) * 0.5);
      e.dispatchEvent(new Event('input', { bubbles: true }));
    });
    expect(await play.textContent()).toMatch(/pressure\s+\d.*bar\(g\)/);
    expect(await scrub.getAttribute('aria-valuetext')).toMatch(/rod tip \d.*\smm below the ledge/);
    await page.locator('[data-stage=blow]').click();
    await page.locator('[data-trace="blow.pressure"] .linked').waitFor();
    await accessible(page, 'playback', '.centre');
    await picture(page, 'play-1280-light');
    await scrub.focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Space');
    const from = await time();
    const frames = await page.evaluate(async () => {
      const bar = document.querySelector('.playbar')!;
      const seen = new Set<string>();
      const begin = performance.now();
      while (performance.now() - begin < 1000) {
        await new Promise(requestAnimationFrame);
        seen.add(bar.getAttribute('data-time') ?? '');
      }
      return seen.size;
    });
    console.log(`frames of the playback in one second: ${frames}`);
    expect(frames).toBeGreaterThan(3);
    expect(await time()).toBeGreaterThan(from);
    await page.getByRole('button', { name: 'Pause' }).click();
    const held = await time();
    await page.waitForTimeout(100);
    expect(await time()).toBe(held);
    await page.getByLabel('Speed', { exact: true }).selectOption('0.1');
    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: 'Show the bottle' }).click();
    await page.locator('.bottle').waitFor();
    expect(faults).toEqual([]);
    await leave(page);
  });
});
