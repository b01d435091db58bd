// Nothing typed is lost: by leaving a design, or with a file that goes away.
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { accessible, answered, desk, field, leave, settled, type } from './browser';
import { served } from './spawn';

const demo = 'wrenhollow.yaml';
const { own, browser } = served();

it('keeps what was typed over a visit to the list, undo and all', async () => {
  const { page, faults } = await desk(browser());
  await page.goto(`${own.url}/#/design/${demo}`);
  await page.locator('[data-key]').first().waitFor();
  await settled(page);
  const before = await field(page, 'preform.wall').inputValue();
  await answered(page, () => type(page, 'preform.wall', '3.41 mm'));
  await page.getByRole('link', { name: 'Designs', exact: true }).click();
  await page.getByRole('link', { name: /Wrenhollow/ }).click();
  await page.locator('[data-key]').first().waitFor();
  await settled(page);
  expect(await field(page, 'preform.wall').inputValue()).toBe('3.41 mm');
  await answered(page, () => page.keyboard.press('Control+Z'));
  expect(await field(page, 'preform.wall').inputValue()).toBe(before);

  // The file goes: saving asks, and writes it again.
  await answered(page, () => type(page, 'preform.wall', '3.42 mm'));
  rmSync(join(own.dir, demo));
  await page.keyboard.press('Control+S');
  const question = page.locator('dialog[open]');
  await question.getByText('no longer in the folder').waitFor();
  await accessible(page, 'file gone', 'dialog[open]');
  await question.getByRole('button', { name: 'Write it again' }).click();
  await page.getByText('Saved', { exact: true }).first().waitFor();
  expect(existsSync(join(own.dir, demo))).toBe(true);
  // A file that somebody empties is a change like any other: told, one undo away.
  const kept = readFileSync(join(own.dir, demo), 'utf8');
  writeFileSync(join(own.dir, demo), '');
  await page.evaluate(() => void window.dispatchEvent(new Event('focus')));
  await page.locator('.problems').getByText('the document is empty').waitFor();
  expect(await page.locator('#board').getAttribute('data-stale')).toBe('true');
  await answered(page, () => page.getByRole('button', { name: 'Undo', exact: true }).click());
  expect(await page.locator('.problems').count()).toBe(0);
  await page.keyboard.press('Control+S');
  await expect.poll(() => readFileSync(join(own.dir, demo), 'utf8')).toBe(kept);

  expect(faults.filter((f) => !f.includes('409') && !f.includes('404'))).toEqual([]);
  await leave(page);
});
