// What the numbers stand on: the data cards and their sources.
import type { Browser } from 'playwright-core';
import { beforeAll, expect, it } from 'vitest';
import { accessible, address, desk, launch, leave, picture } from './browser';

let browser: Browser;
beforeAll(async () => void (browser = await launch()));

it('shows every card with sources, and finds values', async () => {
  const { page, faults } = await desk(browser);
  await page.goto(address('/'));
  await page.getByRole('link', { name: 'Data cards' }).click();
  await page.locator('[data-card]').first().waitFor();
  expect(await page.locator('[data-card]').count()).toBeGreaterThan(20);
  await accessible(page, 'data cards');
  await page.getByRole('searchbox').fill('from memory');
  await page.locator('details[open] tbody tr').first().waitFor();
  const rows = await page.locator('details[open] tbody tr').allTextContents();
  expect(rows.length).toBeGreaterThan(0);
  await page.locator('details[open] tbody button').first().click();
  await page.locator('.found').first().waitFor();
  await accessible(page, 'data cards, found');
  await picture(page, 'cards-1280-light');
  await page.getByRole('searchbox').fill('zzz');
  await page.getByText('No card, value or source').waitFor();
  expect(faults).toEqual([]);
  await leave(page);
});
