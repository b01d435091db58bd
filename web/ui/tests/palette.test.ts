// Every action, input and figure by keyboard.
import type { Browser, Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { accessible, address, desk, field, launch, leave, open, picture } from './browser';

const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

async function command(page: Page, text: string): Promise<void> {
  await page.keyboard.press('Control+K');
  await page.getByRole('combobox', { name: /What do you want/ }).waitFor();
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

describe('commands', () => {
  it('hold every input, every figure and every action', async () => {
    const { page, faults } = await desk(browser);
    await open(page, demo);
    await page.keyboard.press('Control+K');
    await page.getByRole('listbox').waitFor();
    await accessible(page, 'commands', 'dialog[open]');
    await picture(page, 'commands-1280-light');
    const find = async (text: string) => {
      await page.getByRole('combobox', { name: /What do you want/ }).fill(text);
      return page.locator('[data-command]').evaluateAll((l) => l.map((e) => e.getAttribute('data-command')));
    };
    const answer = await page.evaluate(async (name) => {
      const r = await fetch('api/check', {
        method: 'POST',
        headers: { 'Content-Type': 'application/json' },
        body: JSON.stringify({ name }),
      });
      return (await r.json()) as {
        resolved: { path: string }[];
        board: { figures: { key: string }[] };
      };
    }, demo);
    const wanted = [
      ...answer.resolved
        .filter((i) => i.path !== 'schema')
        .map((i): [string, string] => [i.path, `input-${i.path}`]),
      ...answer.board.figures.map((f): [string, string] => [f.key, `figure-${f.key}`]),
    ];
    expect(wanted.length).toBeGreaterThan(200);
    const absent = await page.evaluate(async (wanted) => {
      const box = document.querySelector<HTMLInputElement>('dialog[open] [role=combobox]')!;
      const out: string[] = [];
      for (const [text, command] of wanted) {
        box.value = text;
        box.dispatchEvent(new InputEvent('input', { bubbles: true }));
        await new Promise((resolve) => setTimeout(resolve));
        if (!document.querySelector(`[data-command="${command}"]`)) out.push(command);
      }
      return out;
    }, wanted);
    expect(absent).toEqual([]);
    expect(await find('zzz')).toEqual([]);
    await accessible(page, 'commands, nothing found', 'dialog[open]');
    await page.keyboard.press('Escape');
    expect(await page.getByRole('dialog').count()).toBe(0);
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('do what they say', async () => {
    const { page, faults } = await desk(browser, { colorScheme: 'dark' });
    await open(page, demo);
    await command(page, 'preform.wall');
    await page.waitForFunction(() =>
      document.activeElement?.closest('[data-path]')?.matches('[data-path="preform.wall"]'),
    );
    expect(await field(page, 'preform.wall').inputValue()).toBe('3.60 mm');
    await command(page, 'shelf.loss.end');
    await page.locator('#why').waitFor();
    await page.keyboard.press('Escape');
    await command(page, 'text of the design');
    await page.getByRole('textbox', { name: 'The design file' }).waitFor();
    await command(page, 'look at: shelf');
    await page.locator('[data-stage=shelf][aria-pressed=true]').waitFor();
    await command(page, 'pin this design');
    await page.locator('.delta').first().waitFor();
    await command(page, 'difference sheet');
    await page.getByRole('dialog').getByText('Nothing differs').waitFor();
    await page.keyboard.press('Escape');
    await command(page, 'duplicate this');
    await page.getByRole('dialog').getByText('as it stands on this page').waitFor();
    await accessible(page, 'duplicate of the open design', 'dialog[open]');
    await page.keyboard.press('Escape');
    await page.keyboard.press('Control+K');
    await page.getByRole('listbox').waitFor();
    for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowDown');
    expect(await page.locator('[data-command]').nth(3).getAttribute('aria-selected')).toBe('true');
    await picture(page, 'commands-1280-dark');
    await page.keyboard.press('Escape');
    await command(page, 'published checks');
    await page.locator('h1', { hasText: 'Published checks' }).waitFor();
    await command(page, 'new design');
    await page.getByLabel('Pack class').waitFor();
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('are there on the list of designs, too', async () => {
    const { page } = await desk(browser);
    await page.goto(address('/'));
    await page.locator('tbody tr').first().waitFor();
    await command(page, 'us units');
    await expect.poll(() => page.getByRole('radio', { name: /US/ }).isChecked()).toBe(true);
    await leave(page);
  });
});
