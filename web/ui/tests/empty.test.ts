// An emptied or faulty text is never written without a question.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { expect, it } from 'vitest';
import { accessible, answered, desk, leave, picture, settled, value } from './browser';
import { served } from './spawn';

const demo = 'wrenhollow.yaml';
const { own, browser } = served();

const area = (page: Page) => page.getByRole('textbox', { name: 'The design file' });
const onDisk = () => readFileSync(join(own.dir, demo), 'utf8');

it('an emptied text cannot be computed, and saving it is asked about', async () => {
  const { page, faults } = await desk(browser());
  await page.goto(`${own.url}/#/design/${demo}`);
  await page.locator('[data-key]').first().waitFor();
  await settled(page);
  const mass = await value(page, 'preform.mass');
  const whole = onDisk();
  await page.locator('.modes').getByRole('button', { name: 'Text', exact: true }).click();
  await area(page).focus();
  await page.keyboard.press('Control+A');
  await answered(page, () => page.keyboard.press('Delete'));
  expect(await page.locator('.text .faults').textContent()).toContain('the document is empty');
  expect(await area(page).getAttribute('aria-invalid')).toBe('true');
  expect(await page.locator('#board').getAttribute('data-stale')).toBe('true');

  const question = page.getByRole('dialog', { name: 'Save a text that cannot be computed?' });
  await page.keyboard.press('Control+S');
  await question.getByText('The text is empty').waitFor();
  await accessible(page, 'saving an empty text', 'dialog[open]');
  await picture(page, 'save-empty');
  await page.keyboard.press('Enter'); // the harmless answer
  await question.waitFor({ state: 'hidden' });
  expect(onDisk()).toBe(whole);
  await page.keyboard.press('Control+S');
  await answered(page, () => question.getByRole('button', { name: 'Undo the last change' }).click());
  expect(await area(page).inputValue()).toBe(whole);
  expect(await page.locator('#board').getAttribute('data-stale')).toBe('false');
  expect(await value(page, 'preform.mass')).toBe(mass);

  // A fault is told with its place; on the reader's word it is written.
  const faulty = whole.replace(/wall: \S+ mm/, 'wall: 3.60 furlong');
  await answered(page, () => area(page).fill(faulty));
  await page.keyboard.press('Control+S');
  await question.getByText('furlong').waitFor();
  expect(await question.textContent()).toMatch(/line \d+, column \d+/);
  expect(onDisk()).toBe(whole);
  await question.getByRole('button', { name: 'Save it all the same' }).click();
  await expect.poll(onDisk).toBe(faulty);
  await answered(page, () => page.getByRole('button', { name: 'Undo', exact: true }).click());
  await page.keyboard.press('Control+S');
  await expect.poll(onDisk).toBe(whole);
  expect(faults).toEqual([]);
  await leave(page);
});
