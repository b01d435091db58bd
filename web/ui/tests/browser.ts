// Headless Chromium on the served page: opening, waiting, looking.
import axe from 'axe-core';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { buffer } from 'node:stream/consumers';
import { chromium, type Browser, type BrowserContextOptions, type Page } from 'playwright-core';
import { expect, inject } from 'vitest';

export const server = (() => {
  const url = process.env.COSTREL_URL;
  if (!url) throw new Error('COSTREL_URL is not set: start "costrel serve" and name its address there');
  return url.replace(/\/$/, '');
})();

const artifacts = join(import.meta.dirname, '../../../artifacts');

let connected: Promise<Browser> | undefined;
/** The browser of all files of this worker; it ends with the run. */
export const launch = (): Promise<Browser> => (connected ??= chromium.connect(inject('chromium')));

export interface Desk {
  page: Page;
  faults: string[]; // what the browser complained of
}

interface Seat extends Desk {
  kind: string;
}
const seats = new WeakMap<Page, Seat>();
let free: Seat[] = [];

/**
 * A page with nothing on it that notes every complaint of the browser: script errors, refused content,
 * failed loads. A page that was left is taken again, emptied: its browser has the scripts already. What
 * cannot be taken back, such as an init script, wants a fresh one.
 */
export async function desk(
  browser: Browser,
  options: BrowserContextOptions = {},
  fresh = false,
): Promise<Desk> {
  const { viewport, colorScheme, reducedMotion, ...fixed } = options;
  const kind = JSON.stringify(fixed);
  let seat = fresh ? undefined : free.find((s) => s.kind === kind);
  if (seat) free = free.filter((s) => s !== seat);
  else {
    const context = await browser.newContext({ locale: 'en-GB', ...fixed });
    context.setDefaultTimeout(60_000);
    seat = { page: await context.newPage(), faults: [], kind: fresh ? 'fresh' : kind };
    const { page, faults } = seat;
    page.on('pageerror', (e) => faults.push(`error: ${e.message}`));
    page.on('console', (m) => {
      if (/GPU stall|GL Driver/.test(m.text())) return; // of drawing 3-D in software
      if (m.type() === 'error' || m.type() === 'warning') faults.push(`${m.type()}: ${m.text()}`);
    });
    seats.set(page, seat);
  }
  await seat.page.setViewportSize(viewport ?? { width: 1280, height: 800 });
  await seat.page.emulateMedia({
    colorScheme: colorScheme ?? 'light',
    reducedMotion: reducedMotion ?? 'no-preference',
  });
  return seat;
}

/** Leaves a page to the next test: nothing of this one is kept in the browser. */
export async function leave(page: Page): Promise<void> {
  const seat = seats.get(page)!;
  if (seat.kind === 'fresh') return page.context().close();
  await page.evaluate(() => (localStorage.clear(), sessionStorage.clear()));
  await page.unrouteAll({ behavior: 'ignoreErrors' });
  await page.goto('about:blank');
  seat.faults.length = 0;
  free.push(seat);
}

export const address = (hash: string) => `${server}/#${hash}`;

/** Opens a design and waits for its board. */
export async function open(page: Page, name: string): Promise<void> {
  await page.goto(address(`/design/${name}`));
  await page.locator('[data-key]').first().waitFor();
  await settled(page);
}

/** Waits until everything that was asked has been answered. */
export async function settled(page: Page): Promise<void> {
  await page.waitForFunction(
    () => document.querySelector('.workbench')?.getAttribute('data-settled') === 'true',
  );
}

/** Does something that changes the design and waits for its answer. */
export async function answered(page: Page, act: () => Promise<unknown>): Promise<void> {
  const count = () =>
    page.evaluate(() => Number(document.querySelector('#board')?.getAttribute('data-answers') ?? 0));
  const before = await count();
  await act();
  await page.waitForFunction(
    (n) => Number(document.querySelector('#board')?.getAttribute('data-answers') ?? 0) > n,
    before,
  );
  await settled(page);
}

export const field = (page: Page, path: string) =>
  page.locator(`[data-path="${path}"]`).locator('input, select');
export const fault = (page: Page, path: string) => page.locator(`[data-path="${path}"] [role=alert]`);
export const row = (page: Page, key: string) => page.locator(`#board [data-key="${key}"]`).first();

/** The value that the board shows for a figure. */
export const value = (page: Page, key: string) => row(page, key).locator('span.value').textContent();

/** What has the focus: its path or key, else its id, else its words. */
export const focused = (page: Page) =>
  page.evaluate(() => {
    const a = document.activeElement as HTMLElement | null;
    const path = a?.closest<HTMLElement>('[data-path]')?.dataset.path;
    return path ?? a?.dataset.key ?? (a?.id === '' || !a ? (a?.textContent ?? '').trim() : a.id);
  });

/** Writes into a field in one piece, or letter by letter as a person does. */
export async function type(page: Page, path: string, text: string, letters = false): Promise<void> {
  await field(page, path).click();
  await page.keyboard.press('Control+A');
  if (letters) await page.keyboard.type(text, { delay: 5 });
  else await page.keyboard.insertText(text);
}

/** The file that an act hands over. */
export async function handed(
  page: Page,
  act: () => Promise<unknown>,
): Promise<{ name: string; bytes: Buffer }> {
  const [file] = await Promise.all([page.waitForEvent('download'), act()]);
  return { name: file.suggestedFilename(), bytes: await buffer(await file.createReadStream()) };
}

/** No violation of the accessibility rules in the present state, of the whole page or of the part that is new. */
export async function accessible(page: Page, state: string, part?: string): Promise<void> {
  // The content-security policy refuses an added script element; evaluating does not add one.
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
  const found = await page.evaluate(async (part) => {
    const lens = (window as unknown as { axe: typeof axe }).axe;
    const result = await lens.run(part ?? document, { resultTypes: ['violations'] });
    return result.violations.map((v) => ({
      rule: v.id,
      help: v.help,
      where: v.nodes.slice(0, 4).map((n) => `${n.target.join(' ')} ${n.failureSummary ?? ''}`),
    }));
  }, part);
  expect(found, `accessibility: ${state}`).toEqual([]);
}

/** Keeps a picture under artifacts/, outside git. */
export async function picture(page: Page, name: string): Promise<void> {
  mkdirSync(artifacts, { recursive: true });
  await page.screenshot({ path: join(artifacts, `${name}.png`) });
}
