// A new design from a class and a few answers, and copies.
import type { Browser } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { accessible, address, desk, field, launch, leave, picture, server } from './browser';

let browser: Browser;
beforeAll(async () => void (browser = await launch()));

const read = async (name: string) =>
  (await (await fetch(`${server}/api/designs/${name}`)).json()) as { text: string };

describe('a new design', () => {
  it('is made of a class and a few answers', async () => {
    const { page, faults } = await desk(browser);
    await page.goto(address('/'));
    await page.getByRole('link', { name: 'New design' }).click();
    const dialog = page.getByRole('dialog');
    await dialog.locator('[data-answer="brief.nominal"]').waitFor();
    await accessible(page, 'new design', 'dialog[open]');
    await picture(page, 'new-design');
    await dialog.getByRole('button', { name: 'Write the design' }).click();
    await dialog.getByText('The design needs a name.').waitFor();
    await dialog.getByLabel('Name of the design').fill('Tansy 0.6');
    expect(await dialog.getByLabel('File').inputValue()).toBe('tansy-0.6.yaml');
    await dialog.getByLabel('Pack class').selectOption('csd-500');
    const volume = dialog.locator('[data-answer="brief.nominal"]');
    await page.waitForFunction(
      () =>
        document.querySelector<HTMLInputElement>('[data-answer="brief.nominal"]')?.placeholder === '500 mL',
    );
    await volume.fill('0.6');
    expect(await dialog.getByRole('alert').first().textContent()).toContain('has no unit');
    await accessible(page, 'new design with a fault', 'dialog[open]');
    await dialog.getByRole('button', { name: 'Write the design' }).click();
    expect(await dialog.count()).toBe(1);
    await volume.fill('0.6 L');
    await dialog.getByRole('button', { name: 'Write the design' }).click();
    await page.locator('#board [data-key]').first().waitFor();
    expect(await page.title()).toContain('Tansy 0.6');
    expect(await field(page, 'brief.nominal').inputValue()).toBe('0.6 L');
    expect((await read('tansy-0.6.yaml')).text).toContain('class: csd-500');
    expect(faults).toEqual([]);
    await leave(page);
  });

  it('writes over no file, and shuts on Escape', async () => {
    const { page } = await desk(browser);
    await page.goto(address('/new'));
    const dialog = page.getByRole('dialog');
    await dialog.locator('[data-answer="brief.nominal"]').waitFor();
    const before = await read('sorrel-lime.yaml');
    await dialog.getByLabel('Name of the design').fill('Sorrel Lime');
    await dialog.getByRole('button', { name: 'Write the design' }).click();
    await dialog.getByText('There is already a file sorrel-lime.yaml').waitFor();
    expect(await read('sorrel-lime.yaml')).toEqual(before);
    await page.keyboard.press('Escape');
    expect(await dialog.count()).toBe(0);
    await expect.poll(() => page.url()).toMatch(/#\/$/);
    await page.getByRole('link', { name: 'New design' }).click();
    await dialog.waitFor();
    await leave(page);
  });
});

it('a copy has its own file and name', async () => {
  const { page, faults } = await desk(browser);
  await page.goto(address('/'));
  await page.getByRole('button', { name: /Duplicate.*wrenhollow.yaml/ }).click();
  const dialog = page.getByRole('dialog');
  await page.waitForFunction(
    () => document.querySelector<HTMLInputElement>('dialog[open] input')?.value === 'wrenhollow-2.yaml',
  );
  // The stem is selected: what is typed takes its place, and the ending stays.
  const file = dialog.locator('input').first();
  await page.waitForFunction(() => {
    const input = document.querySelector<HTMLInputElement>('dialog[open] input')!;
    return document.activeElement === input && input.selectionEnd === 'wrenhollow-2'.length;
  });
  await page.keyboard.type('wren copy');
  expect(await file.inputValue()).toBe('wren copy.yaml');
  await file.fill('wrenhollow-2.yamlWren copy.yaml');
  await page.keyboard.press('Enter');
  await dialog.getByRole('alert').getByText('ending').waitFor();
  await file.fill('wrenhollow-2.yaml');
  await dialog.getByLabel('Name of the copy').fill('Wrenhollow, lighter');
  await accessible(page, 'duplicate', 'dialog[open]');
  await picture(page, 'duplicate');
  await dialog.getByRole('button', { name: 'Duplicate' }).click();
  await page.locator('#board [data-key]').first().waitFor();
  expect(await page.title()).toContain('Wrenhollow, lighter');
  const [a, b] = [await read('wrenhollow.yaml'), await read('wrenhollow-2.yaml')];
  expect(b.text.split('\n').length).toBe(a.text.split('\n').length);
  expect(b.text).toContain('name: Wrenhollow, lighter');
  expect(faults).toEqual([]);
  await leave(page);
});
