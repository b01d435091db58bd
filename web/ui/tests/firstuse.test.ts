// First use, as a person who has just typed "make demo" goes: a fresh folder with the demo designs,
// the list, demo A, a change of the preform's wall, the margin, why, the baseline, a CSV.
import { expect, it } from 'vitest';
import { answered, desk, field, handed, leave, picture, row, settled } from './browser';
import { served } from './spawn';

const demo = 'sorrel-lime.yaml';
const { own, browser } = served();

it('from the first page to a CSV in under 20 actions', async () => {
  const { page, faults } = await desk(browser());
  const actions: string[] = [];
  const act = async <T>(what: string, deed: () => Promise<T>): Promise<T> => {
    actions.push(what);
    return deed();
  };
  const margin = async (key: string) =>
    (await row(page, key).locator('.margin, [class*=margin]').first().textContent()) ?? '';

  await act('open the address that the program prints', () => page.goto(own.url));
  await act('click demo A', () => page.getByRole('link', { name: 'Sorrel Lime 1.75 L' }).click());
  await page.locator('[data-key]').first().waitFor();
  await settled(page);

  const worst = (await page.locator('#board [data-key]').first().getAttribute('data-key'))!;
  const before = await row(page, worst).textContent();
  const mass = await row(page, 'preform.mass').textContent();
  await act('click into the wall of the preform', () => field(page, 'preform.wall').click());
  await act('select what is written', () => page.keyboard.press('Control+A'));
  await answered(page, () => act('type another wall', () => page.keyboard.type('3.4 mm')));
  // A margin has moved, and the board shows what it was.
  expect(await row(page, worst).textContent()).not.toBe(before);
  expect(await row(page, 'preform.mass').textContent()).not.toBe(mass);
  const moved = await page.locator('#board [data-key]').evaluateAll((rows) => rows.map((r) => r.textContent));
  expect(moved.join()).toMatch(/was/);
  console.log(`worst limit ${worst}: ${before?.trim().slice(0, 60)} -> ${(await margin(worst)).trim()}`);

  await act('ask why', () => row(page, worst).click());
  const why = page.locator('#why');
  await why.waitFor();
  await expect.poll(() => why.textContent()).toMatch(/Method/);

  const against = page.getByRole('combobox', { name: 'Against' });
  await act('click on what the board is held against', () => against.focus());
  await against.locator(`option[value="${demo}"]`).waitFor({ state: 'attached' });
  await act('choose the design as it is on the disk', () => against.selectOption(demo));
  await expect.poll(() => row(page, 'preform.mass').locator('.delta').textContent()).toMatch(/\u2212\d.*g/);
  await act('open the differences', () => page.getByRole('button', { name: 'Differences' }).click());
  const sheet = page.getByRole('dialog');
  await sheet.locator('.margins').waitFor();
  await picture(page, 'first-use');

  const file = await handed(page, () =>
    act('export the CSV', () => sheet.getByRole('button', { name: 'CSV of the sheet' }).click()),
  );
  const text = file.bytes.toString();
  expect(text).toContain('Preform mass');
  expect(text).toContain('3.4');

  // No dead end: from here back to where one was, and on.
  await act('close the sheet', () => page.keyboard.press('Escape'));
  await act('close why', () => why.getByRole('button', { name: /Close/ }).click());
  await answered(page, () =>
    act('undo', () => page.getByRole('button', { name: 'Undo', exact: true }).click()),
  );
  expect(await row(page, 'preform.mass').textContent()).toContain(mass!.trim().slice(0, 12));
  await act('back to the list', () =>
    page
      .getByRole('link', { name: /Designs|costrel/ })
      .first()
      .click(),
  );
  await page.getByRole('link', { name: 'Sorrel Lime 1.75 L' }).waitFor();

  console.log(`first use, ${actions.length} actions: ${actions.join('; ')}`);
  expect(actions.length).toBeLessThan(20);
  expect(faults).toEqual([]);
  await leave(page);
});
