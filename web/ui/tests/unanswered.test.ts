// A text that the server has not answered yet is not shown as computed.
import type { Browser, Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { accessible, answered, desk, launch, leave, open, picture, settled, value } from './browser';

const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

const area = (page: Page) => page.getByRole('textbox', { name: 'The design file' });
const board = (page: Page) => page.locator('#board').getAttribute('data-stale');
const panel = (page: Page) => page.locator('.text .faults').textContent();

/** Opens the text of the demo; returns it and the mass that the board shows. */
async function writing(page: Page): Promise<{ text: string; mass: string | null }> {
  await open(page, demo);
  await page.locator('.modes').getByRole('button', { name: 'Text', exact: true }).click();
  return { text: await area(page).inputValue(), mass: await value(page, 'preform.mass') };
}

describe('a text without an answer', () => {
  it('is told after a fault of the server, and asked again by itself', async () => {
    const { page } = await desk(browser);
    const { text, mass } = await writing(page);
    const asked: number[] = [];
    await page.route('**/api/check', (r) => {
      asked.push(Date.now());
      return r.fulfill({
        status: 500,
        json: { title: 'Internal Server Error', detail: 'the disk is on fire' },
      });
    });
    await area(page).fill(text.replace('wall: 3.60 mm', 'wall: 3.90 mm'));
    await page.getByText('the disk is on fire').waitFor();
    expect(await board(page)).toBe('true');
    expect(await value(page, 'preform.mass')).toBe(mass);
    expect(await panel(page)).toContain('Not computed yet');
    expect(await panel(page)).not.toContain('can be computed');
    await accessible(page, 'a text without an answer', '.left');
    await picture(page, 'text-unanswered');
    await expect.poll(() => asked.length).toBeGreaterThanOrEqual(3);
    expect(asked[2]! - asked[1]!).toBeGreaterThan(1.5 * (asked[1]! - asked[0]!)); // it backs off
    expect(await board(page)).toBe('true');
    await answered(page, () => page.unroute('**/api/check'));
    expect(await board(page)).toBe('false');
    expect(await value(page, 'preform.mass')).not.toBe(mass);
    expect(await panel(page)).not.toContain('Not computed yet');
    expect(await page.getByText('the disk is on fire').count()).toBe(0);
    await leave(page);
  });

  it('is told while the server is away', async () => {
    const { page } = await desk(browser);
    const { text, mass } = await writing(page);
    await page.context().setOffline(true);
    await area(page).fill(text.replace('wall: 3.60 mm', 'wall: 3.91 mm'));
    await page.getByText('The server does not answer.').waitFor();
    expect(await board(page)).toBe('true');
    expect(await panel(page)).toContain('Not computed yet');
    await page.context().setOffline(false);
    await settled(page);
    expect(await board(page)).toBe('false');
    expect(await value(page, 'preform.mass')).not.toBe(mass);
    await leave(page);
  });

  it('is told to be too long, with nothing to try again', async () => {
    const { page } = await desk(browser);
    const { text, mass } = await writing(page);
    await area(page).evaluate(
      (e: HTMLTextAreaElement, more) => {
        e.value += more;
        e.dispatchEvent(new Event('input', { bubbles: true }));
      },
      `# ${'x'.repeat(99)}\n`.repeat(12_000),
    );
    await page.getByText('1.18 of 1 MB').waitFor();
    expect(await page.getByRole('button', { name: /^Try/ }).count()).toBe(0);
    expect(await board(page)).toBe('true');
    expect(await panel(page)).toContain('Not computed yet');
    await accessible(page, 'a text that is too long', '.told');
    await answered(page, () => page.keyboard.press('Control+Z'));
    expect(await area(page).inputValue()).toBe(text);
    expect(await board(page)).toBe('false');
    expect(await value(page, 'preform.mass')).toBe(mass);
    expect(await page.getByText('of 1 MB').count()).toBe(0);
    await leave(page);
  });
});
