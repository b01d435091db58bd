// What comes in from outside: an outline from a file, rows from a spreadsheet.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import { accessible, answered, desk, launch, leave, open, picture, value } from './browser';

let browser: Browser;
beforeAll(async () => {
  browser = await launch();
});

const demo = 'sorrel-lime.yaml';
const outlines = join(import.meta.dirname, '../../../examples/outlines');

async function at(test: (page: Page) => Promise<void>): Promise<void> {
  const { page, faults } = await desk(browser);
  try {
    await open(page, demo);
    await test(page);
    expect(faults).toEqual([]);
  } finally {
    await leave(page);
  }
}

async function table(page: Page, path: string): Promise<void> {
  await page.locator(`[data-path="${path}"] button`).click();
}

describe('an outline from a file', () => {
  it.each(['sorrel-lime.dxf', 'sorrel-lime.csv'])('%s is shown, taken over and undone', async (name) => {
    await at(async (page) => {
      await table(page, 'bottle.profile');
      await page.getByRole('button', { name: 'Import an outline…' }).click();
      const dialog = page.getByRole('dialog');
      await dialog.getByLabel('Choose a file', { exact: true }).setInputFiles({
        name,
        mimeType: 'text/plain',
        buffer: readFileSync(join(outlines, name)),
      });
      await dialog.getByText(/rows\. The design can be computed/).waitFor();
      expect(await dialog.locator('path.fresh').count()).toBeGreaterThan(2);
      await accessible(page, `import of ${name}`, 'dialog[open]');
      await picture(page, `import-${name}`);
      await answered(page, () => dialog.getByRole('button', { name: 'Take it over' }).click());
      expect(await page.getByRole('dialog').count()).toBe(0);
      expect(await page.locator('[data-path="bottle.height"]').getAttribute('data-origin')).toBe('assumed');
      await answered(page, () => page.keyboard.press('Control+Z'));
      expect(await page.locator('[data-path="bottle.height"]').getAttribute('data-origin')).toBe('given');
    });
  });

  it('tells every fault of the file with its line, and what to do', async () => {
    await at(async (page) => {
      await page.keyboard.press('Control+K');
      await page.keyboard.type('import an outline');
      await page.keyboard.press('Enter');
      const dialog = page.getByRole('dialog', { name: 'Import an outline' });
      await dialog.waitFor();
      await dialog.getByLabel('Choose a file', { exact: true }).setInputFiles({
        name: 'wrong.csv',
        mimeType: 'text/csv',
        buffer: Buffer.from('z [mm];r [mm]\n0;25\nten;30\n20\n'),
      });
      await dialog.getByText('line 3').waitFor();
      const told = (await dialog.locator('[role=status]').textContent()) ?? '';
      expect(told).toContain('line 4');
      expect(told).toContain('write a number');
      expect(await dialog.getByRole('button', { name: 'Take it over' }).isDisabled()).toBe(true);
      await accessible(page, 'a file with faults', 'dialog[open]');
      await dialog.getByLabel('Choose a file', { exact: true }).setInputFiles({
        name: 'empty.csv',
        mimeType: 'text/csv',
        buffer: Buffer.alloc(0),
      });
      await dialog.getByText('empty.csv is empty').waitFor();
      // Without a unit the dialog asks for it, and takes it.
      await dialog.getByLabel('Choose a file', { exact: true }).setInputFiles({
        name: 'bare.csv',
        mimeType: 'text/csv',
        buffer: Buffer.from('z;r\n0;25\n60;50.5\n190;50.5\n288;13.1\n'),
      });
      await dialog
        .getByText(/has no unit/)
        .first()
        .waitFor();
      await dialog.getByLabel('Unit of lengths').selectOption('mm');
      await dialog.getByText(/rows\. The design can be computed|would have these faults/).waitFor();
      await page.keyboard.press('Escape');
      expect(await page.getByRole('dialog').count()).toBe(0);
    });
  });
});

describe('rows from a spreadsheet', () => {
  it('are shown, taken over and undone', async () => {
    await at(async (page) => {
      await table(page, 'oven.zones');
      await page.getByRole('button', { name: /Paste rows….*Zones/ }).click();
      const dialog = page.getByRole('dialog');
      await dialog.getByLabel('Rows to paste').fill('zone\tpower [%]\n1\t61,5\n2\t52\n3\t45\n4\t44\n');
      await dialog.getByText('4 rows can be taken over.').waitFor();
      expect(await dialog.locator('tbody td').allTextContents()).toContain('61.5');
      await accessible(page, 'pasted rows', 'dialog[open]');
      await picture(page, 'paste');
      await answered(page, () => dialog.getByRole('button', { name: 'Take the rows over' }).click());
      expect(await page.locator('[data-cell="oven.zones[0].power"]').inputValue()).toBe('61.5');
      expect(await page.locator('[data-path="oven.zones"] button').textContent()).toContain('4 rows');
      await answered(page, () => page.keyboard.press('Control+Z'));
      expect(await page.locator('[data-path="oven.zones"] button').textContent()).toContain('8 rows');
    });
  });

  it('name the cells that cannot be taken', async () => {
    await at(async (page) => {
      await table(page, 'oven.zones');
      await page.getByRole('button', { name: /Paste rows….*Zones/ }).click();
      const dialog = page.getByRole('dialog');
      const area = dialog.getByLabel('Rows to paste');
      await area.fill('zone;power [%]\n1;60\ntwo;500\n');
      await dialog.getByText('2 cells cannot be taken.').waitFor();
      expect(await dialog.locator('.faults li').allTextContents()).toEqual([
        expect.stringContaining('row 2, zone'),
        expect.stringContaining('row 2, power'),
      ]);
      expect(await dialog.locator('td[data-wrong=true]').count()).toBe(2);
      expect(await dialog.getByRole('button', { name: 'Take the rows over' }).isDisabled()).toBe(true);
      await accessible(page, 'pasted rows with faults', 'dialog[open]');
      // A column without a name says so.
      await area.fill('zone;;power [%]\n1;60;7\n2;50;8\n');
      await dialog.getByText('the column of this cell has no heading').first().waitFor();
      expect(await dialog.locator('thead th').allTextContents()).toContain('column 2');
      await accessible(page, 'pasted rows without names', 'dialog[open]');
      await picture(page, 'paste-faults');
      await area.fill('');
      await dialog.getByText('Nothing pasted yet.').waitFor();
    });
  });

  it('have the units of the file, and a time that nobody has a unit for is asked about', async () => {
    await at(async (page) => {
      const heads = () => page.locator('table', { has: page.locator('[data-cell="lab.pulls[0].time"]') });
      await table(page, 'lab.pulls');
      expect(await heads().locator('th[scope=col]').allTextContents()).toEqual([
        'Row',
        'time weeks',
        'carbonation vol',
      ]);
      const cell = page.locator('[data-cell="lab.pulls[6].carbonation"]');
      expect(await cell.inputValue()).toBe('4.05');
      await answered(page, async () => {
        await cell.fill('4.055');
        await cell.press('Enter');
      });
      expect(await cell.inputValue()).toBe('4.055');
      const paste = async () => {
        await page.getByRole('button', { name: /Paste rows….*Carbonation pulls/ }).click();
        const dialog = page.getByRole('dialog', { name: 'Paste rows into Carbonation pulls' });
        await dialog.getByLabel('Rows to paste').fill('0\t4.10\n4\t4.02\n8\t3.95\n');
        return dialog;
      };
      let dialog = await paste();
      await dialog.getByText('No heading: read as time weeks, carbonation vol.').waitFor();
      await dialog.getByText('3 rows can be taken over.').waitFor();
      expect(await dialog.getByRole('combobox').count()).toBe(0);
      await answered(page, () => dialog.getByRole('button', { name: 'Take the rows over' }).click());
      await page.locator('.modes').getByRole('button', { name: 'Text', exact: true }).click();
      const text = await page.getByRole('textbox', { name: 'The design file' }).inputValue();
      expect(text).toMatch(
        /columns: \[time weeks, carbonation vol\]\n\s+rows:\n\s+- \[0, 4\.10?\]\n\s+- \[4, 4\.02\]/,
      );
      // Without the pulls nobody says what a time is in.
      await page.locator('.modes').getByRole('button', { name: 'Inputs', exact: true }).click();
      await table(page, 'lab.pulls');
      await answered(page, () =>
        page.getByRole('button', { name: /Back to the default.*Carbonation pulls/i }).click(),
      );
      dialog = await paste();
      const unit = dialog.getByRole('combobox', { name: 'Time is in' });
      await unit.waitFor();
      expect(await dialog.getByRole('button', { name: 'Take the rows over' }).isDisabled()).toBe(true);
      await accessible(page, 'pasted rows without a unit', 'dialog[open]');
      await picture(page, 'paste-unit');
      await unit.selectOption('weeks');
      await dialog.getByText('3 rows can be taken over.').waitFor();
      await answered(page, () => dialog.getByRole('button', { name: 'Take the rows over' }).click());
      expect(await page.locator('[data-cell="lab.pulls[1].time"]').inputValue()).toBe('4');
      expect(await heads().locator('th[scope=col]').allTextContents()).toContain('time weeks');
    });
  });

  it('come straight from the clipboard into any table of the design', async () => {
    await at(async (page) => {
      await table(page, 'bottle.planes');
      const before = await value(page, 'section.base.mass');
      await page.locator('[data-cell="bottle.planes[0]"]').evaluate((cell) => {
        const data = new DataTransfer();
        data.setData('text/plain', '58\n188\n');
        cell.dispatchEvent(
          new ClipboardEvent('paste', { clipboardData: data, bubbles: true, cancelable: true }),
        );
      });
      const dialog = page.getByRole('dialog', { name: 'Paste rows into Section planes' });
      await dialog.getByText('2 rows can be taken over.').waitFor();
      await answered(page, () => page.getByRole('button', { name: 'Take the rows over' }).click());
      expect(await page.locator('[data-cell="bottle.planes[1]"]').inputValue()).toBe('188');
      expect(before).not.toBeNull();
      for (const path of ['limits', 'climate.lane', 'bottle.profile']) {
        await table(page, path);
        expect(await page.locator(`[data-path="${path}"] ~ .tools button`).first().isEnabled()).toBe(true);
      }
    });
  });
});
