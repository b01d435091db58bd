// The main way through the page: open, look, change, ask why, undo, save.
import type { Browser } from 'playwright-core';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  accessible,
  address,
  answered,
  desk,
  fault,
  field,
  focused,
  launch,
  leave,
  open,
  picture,
  row,
  server,
  settled,
  type,
  value,
  type Desk,
} from './browser';

const demo = 'sorrel-lime.yaml';
let browser: Browser;
beforeAll(async () => void (browser = await launch()));

async function at(act: (d: Desk) => Promise<void>, options = {}): Promise<void> {
  const d = await desk(browser, options);
  await act(d);
  expect(d.faults).toEqual([]);
  await leave(d.page);
}

describe('the list of designs', () => {
  it('shows the folder and opens a design', async () => {
    await at(async ({ page }) => {
      await page.goto(address('/'));
      const link = page.locator(`a[href="#/design/${demo}"]`);
      await link.waitFor();
      expect(await page.locator('tbody tr').count()).toBeGreaterThanOrEqual(4);
      await accessible(page, 'list');
      await picture(page, 'designs');
      await link.click();
      await page.locator('[data-key]').first().waitFor();
      expect(await page.title()).toContain('Sorrel Lime');
    });
  });
});

describe('an open design', () => {
  it('shows drawing, inputs, board, cautions', async () => {
    await at(async ({ page }) => {
      await open(page, demo);
      const drawing = page.getByRole('img', { name: /Drawing to scale/ });
      expect(await drawing.locator('.bottle .outline').count()).toBe(2);
      expect(await drawing.locator('.preform .cut').count()).toBe(1);
      expect(await drawing.locator('.chart .line').count()).toBe(1);
      expect(await drawing.textContent()).toContain('305.0');
      // One scale for both shapes and both directions: 101 mm across, 305 mm high.
      const box = await page.evaluate(() => {
        const out = document.querySelectorAll('.bottle .outline');
        return [...out].map((o) => (o as SVGGraphicsElement).getBBox()).map((b) => [b.width, b.height]);
      });
      expect(box[1]![0]! / box[1]![1]!).toBeCloseTo(50.5 / 305, 2);
      expect(await field(page, 'preform.wall').inputValue()).toBe('3.60 mm');
      expect(await row(page, 'preform.mass').textContent()).toMatch(/38\.\d+\s*g/);
      expect(await page.locator('#cautions li').count()).toBeGreaterThan(0);
      await accessible(page, 'design');
      await picture(page, 'design-1280-light');
    });
  });

  it('has every limit with word, mark and margin, worst first', async () => {
    await at(async ({ page }) => {
      await open(page, demo);
      const words = await page.locator('#board [data-verdict][data-key]').evaluateAll((rows) =>
        rows.map((r) => ({
          verdict: r.getAttribute('data-verdict') ?? '',
          word: r.querySelector('.verdict strong')?.textContent?.trim(),
          mark: r.querySelector('[data-mark]')?.getAttribute('data-mark'),
          limit: r.querySelector('.verdict .limit')?.textContent ?? '',
          margin: r.querySelector('.margin')?.textContent ?? '',
        })),
      );
      expect(words.length).toBeGreaterThan(3);
      // A close value that is itself outside its limit says on which side, as the command line does.
      for (const w of words) {
        const outside = w.verdict === 'close' && w.margin.includes('\u2212');
        const side = outside ? `, ${w.limit.includes('≤') ? 'over' : 'under'}` : '';
        expect([w.word, w.mark]).toEqual([`${w.verdict}${side}`, w.verdict]);
      }
      expect(words.map((w) => w.word)).toContain('close, over');
      const rank = ['fail', 'close', 'not shown', 'not computed', 'pass'];
      const order = words.map((w) => rank.indexOf(w.verdict));
      expect(order[0]).toBe(Math.min(...order));
    });
  });

  it('takes another unit, moves the board, shows what it was, and undoes', async () => {
    await at(async ({ page }) => {
      await open(page, demo);
      const mass = row(page, 'preform.mass');
      const before = await value(page, 'preform.mass');
      await answered(page, () => type(page, 'preform.wall', '0.142 in', true));
      const after = await value(page, 'preform.mass');
      expect(after).not.toBe(before);
      expect(await mass.textContent()).toContain('was');
      expect(await page.locator('[data-dim=preform-wall]').textContent()).toContain('3.61');
      expect(await page.locator('.saved').textContent()).toContain('Not saved');
      await page.keyboard.press('Tab'); // leave the field: what was written stays as written
      expect(await field(page, 'preform.wall').inputValue()).toBe('0.142 in');
      await picture(page, 'changed-1280-light');
      await accessible(page, 'changed');
      await field(page, 'preform.wall').focus();
      await answered(page, () => page.keyboard.press('Control+Z')); // inside the field as well
      expect(await value(page, 'preform.mass')).toBe(before);
      expect(await field(page, 'preform.wall').inputValue()).toBe('3.60 mm');
      expect(await page.locator('.saved').textContent()).toContain('Saved');
      await answered(page, () => page.keyboard.press('Control+Shift+Z'));
      expect(await value(page, 'preform.mass')).toBe(after);
      await answered(page, () => page.keyboard.press('Control+Z'));
    });
  });

  it('says in words what is wrong and leaves the board alone', async () => {
    await at(async ({ page }) => {
      await open(page, demo);
      const before = await value(page, 'preform.mass');
      const wall = field(page, 'preform.wall');
      for (const [text, told] of [
        ['3.6', /“3\.6” has no unit\. Write one of mm/],
        ['3.6 bar(g)', /bar\(g\)/],
        ['3,6 mm', /comma|point/],
        ['90 mm', /above/],
        ['', /Write a number/],
      ] as const) {
        await type(page, 'preform.wall', text === '' ? ' ' : text, true);
        await page.keyboard.press('Enter');
        await expect.poll(() => fault(page, 'preform.wall').textContent(), { timeout: 5000 }).toMatch(told);
        expect(await wall.getAttribute('aria-invalid')).toBe('true');
        expect(await value(page, 'preform.mass')).toBe(before);
      }
      // What is refused stays where it was typed, whatever the reader does next.
      await type(page, 'preform.wall', '90 mm');
      await page.keyboard.press('Tab');
      await page.getByRole('searchbox', { name: 'Find an input' }).fill('sugar');
      expect(await wall.count()).toBe(0);
      await page.getByRole('searchbox', { name: 'Find an input' }).fill('');
      expect(await wall.inputValue()).toBe('90 mm');
      expect(await fault(page, 'preform.wall').textContent()).toMatch(/above.*last good value/);
      await type(page, 'preform.wall', '3.6');
      await page.keyboard.press('Enter');
      await expect.poll(() => fault(page, 'preform.wall').textContent()).toMatch(/no unit/);
      await accessible(page, 'wrong input', '.inputs');
      await picture(page, 'wrong-input');
      await page.keyboard.press('Escape');
      expect(await wall.inputValue()).toBe('3.60 mm');
      expect(await fault(page, 'preform.wall').textContent()).toBe('');
    });
  });

  it('takes a spelling that only the server knows', async () => {
    await at(async ({ page }) => {
      await open(page, demo);
      const sugar = field(page, 'drink.sugar');
      await answered(page, () => type(page, 'drink.sugar', '110 G/l', true));
      await page.keyboard.press('Tab');
      expect(await sugar.inputValue()).toBe('110 G/l');
      // While the server is asked the text stays; what it refuses stays, too.
      let release = (): void => undefined;
      const gate = new Promise<void>((resolve) => (release = resolve));
      await page.route('**/api/check', async (r) => (await gate, r.continue()));
      await type(page, 'drink.sugar', '½ G/l');
      await page.keyboard.press('Tab');
      await page.waitForTimeout(50);
      expect(await sugar.inputValue()).toBe('½ G/l');
      release();
      await expect.poll(() => fault(page, 'drink.sugar').textContent()).toContain('write 0.5 with a point');
      expect(await sugar.inputValue()).toBe('½ G/l');
      await sugar.press('Escape');
      expect(await sugar.inputValue()).toBe('110 G/l');
      expect(await fault(page, 'drink.sugar').textContent()).toBe('');
      expect(await row(page, 'shelf.loss.end').textContent()).toContain('was');
    });
  });

  it('edits a cell of a table', async () => {
    await at(async ({ page }) => {
      await open(page, demo);
      await page.locator('[data-path="bottle.planes"] button').click();
      const cell = page.locator('[data-cell="bottle.planes[1]"]');
      const height = () => page.locator('.bottle .plane').nth(1).getAttribute('y1');
      const before = await height();
      await answered(page, async () => {
        await cell.fill('180');
        await cell.press('Enter');
      });
      expect(Number(await height())).toBeGreaterThan(Number(before));
      await cell.fill('high');
      await cell.press('Enter');
      await page.locator('.inputs [role=alert] .fault').waitFor();
      const other = page.locator('[data-cell="bottle.planes[0]"]');
      await answered(page, async () => {
        await other.fill('62');
        await other.press('Enter');
      });
      // Another cell that is taken leaves the one that is not as it was typed.
      expect(await cell.inputValue()).toBe('high');
      expect(await cell.getAttribute('aria-invalid')).toBe('true');
      await accessible(page, 'table with a wrong cell', '.inputs');
      await picture(page, 'table');
    });
  });

  it('leaves a field as it was on Escape', async () => {
    await at(async ({ page }) => {
      await open(page, demo);
      const before = await value(page, 'preform.mass');
      await answered(page, () => type(page, 'preform.wall', '3.9 mm', true));
      expect(await value(page, 'preform.mass')).not.toBe(before);
      await answered(page, () => page.keyboard.press('Escape'));
      expect(await value(page, 'preform.mass')).toBe(before);
      expect(await field(page, 'preform.wall').inputValue()).toBe('3.60 mm');
    });
  });

  it('puts a given value back to its default', async () => {
    await at(async ({ page }) => {
      await open(page, demo);
      await page.locator('[data-path="drink.sugar"]').hover();
      await answered(page, () => page.locator('[data-path="drink.sugar"] button').click());
      expect(await page.locator('[data-path="drink.sugar"]').getAttribute('data-origin')).not.toBe('given');
      expect(await focused(page)).toBe('drink.sugar');
      // The focus stays on a button whose deed is done.
      const undo = page.getByRole('button', { name: 'Undo', exact: true });
      await undo.focus();
      await answered(page, () => page.keyboard.press('Enter'));
      expect(await page.locator('[data-path="drink.sugar"]').getAttribute('data-origin')).toBe('given');
      expect(await undo.getAttribute('aria-disabled')).toBe('true');
      expect(await focused(page)).toBe('Undo');
      await page.keyboard.press('Tab');
      await answered(page, () => page.keyboard.press('Enter'));
      expect(await focused(page)).toBe('Redo');
      expect(await page.locator('[data-path="drink.sugar"]').getAttribute('data-origin')).not.toBe('given');
    });
  });

  it('tells why, walks to the inputs and back', async () => {
    await at(async ({ page }) => {
      await open(page, demo);
      await row(page, 'pack.stress.hoop.store').click();
      const why = page.locator('#why');
      await why.waitFor();
      await why.getByRole('heading', { name: 'Sources' }).waitFor();
      const text = (await why.textContent()) ?? '';
      for (const part of ['Method', 'Equation', 'From these', 'Sources']) expect(text).toContain(part);
      expect(await page.evaluate(() => document.activeElement?.id)).toBe('why');
      await accessible(page, 'why');
      await picture(page, 'why-1280-light');
      const next = why.locator('[data-walk]:not([data-walk^="design:"])').first();
      const key = await next.getAttribute('data-walk');
      await next.click();
      expect(await why.locator('[aria-current=step]').count()).toBe(1);
      expect(await focused(page)).toBe('why');
      expect(key).not.toBeNull();
      await why.locator('nav button').first().click();
      expect(await why.locator('h2').textContent()).toContain('Hoop stress');
      await page.keyboard.press('Escape');
      expect(await why.count()).toBe(0);
      expect(await page.evaluate(() => document.activeElement?.getAttribute('data-key'))).toBe(
        'pack.stress.hoop.store',
      );
      await row(page, 'preform.mass').click();
      const wall = page.locator('#why tr', { has: page.locator('[data-walk="design:preform.wall"]') });
      expect(await wall.textContent()).toContain('Usable from');
      const made = page.locator('#why tr', { hasText: 'volume of the end cap' }); // leads to an input, is none
      expect(await made.textContent()).not.toContain('Usable from');
      await wall.locator('[data-walk]').click();
      await page.waitForFunction(() =>
        document.activeElement?.closest('[data-path]')?.matches('[data-path="preform.wall"]'),
      );
    });
  });

  it('changes the units of every number', async () => {
    await at(async ({ page }) => {
      await open(page, demo);
      await answered(page, () => page.getByRole('radio', { name: /US/ }).check());
      expect(await row(page, 'pack.pressure.store').textContent()).toContain('psi(g)');
      expect(await page.locator('.paper').textContent()).toContain('12.0');
      expect(await page.locator('[data-path="preform.wall"] .same').textContent()).toContain('in');
      await picture(page, 'design-us');
      await answered(page, () => page.getByRole('radio', { name: /EU/ }).check());
    });
  });

  it('narrows the board to one stop of the life', async () => {
    await at(async ({ page }) => {
      await open(page, demo);
      const all = await page.locator('#board [data-key]').count();
      await page.locator('[data-stage=shelf]').click();
      const keys = await page
        .locator('#board [data-key]')
        .evaluateAll((r) => r.map((x) => x.getAttribute('data-key')));
      expect(keys.length).toBeGreaterThan(0);
      expect(keys.length).toBeLessThan(all);
      expect(keys).toContain('shelf.loss.end');
      expect(keys).not.toContain('preform.mass');
    });
  });

  it('reads the wall at a height by keyboard and by pointing', async () => {
    await at(async ({ page }) => {
      await open(page, demo);
      const slider = page.getByRole('slider', { name: /Reading/ });
      await slider.focus();
      for (let i = 0; i < 40; i++) await page.keyboard.press('ArrowRight');
      expect(await page.locator('output').textContent()).toMatch(/wall\s+\d/);
      expect(await slider.getAttribute('aria-valuetext')).toMatch(/wall \d/);
      const box = (await page.locator('.paper > svg').boundingBox())!;
      await page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
      expect(await page.locator('output').textContent()).toMatch(/wall\s+\d/);
      await page.getByText('The drawing as a table').click();
      expect(await page.locator('.block table tbody tr').count()).toBeGreaterThan(1);
      await page.getByLabel('Wall drawn').selectOption('20');
      await page.getByLabel('Wall drawn').selectOption('1');
      await picture(page, 'wall-true');
      await page.getByLabel('Wall drawn').selectOption('10');
    });
  });

  it('saves, and asks when somebody else has written the file', async () => {
    await at(async ({ page, faults }) => {
      const own = 'saved.yaml';
      const original = (await (await fetch(`${server}/api/designs/${demo}`)).json()) as {
        text: string;
        version: string;
      };
      const put = (text: string, version: string) =>
        fetch(`${server}/api/designs/${own}`, {
          method: 'PUT',
          headers: { 'Content-Type': 'application/json' },
          body: JSON.stringify({ text, version }),
        });
      expect((await put(original.text, '')).status).toBeLessThan(300);
      await open(page, own);
      await answered(page, () => type(page, 'preform.wall', '3.65 mm'));
      await page.getByRole('button', { name: 'Save', exact: true }).focus();
      await page.keyboard.press('Enter');
      await page.locator('.saved[data-dirty=false]').waitFor();
      expect(await focused(page)).toBe('Save');
      const saved = (await (await fetch(`${server}/api/designs/${own}`)).json()) as typeof original;
      expect(saved.text).toContain('wall: 3.65 mm');
      expect(saved.text.split('\n').length).toBe(original.text.split('\n').length);

      // The second writer.
      const other = await put(`${saved.text}# by another hand\n`, saved.version);
      expect(other.status).toBe(200);
      await answered(page, () => type(page, 'preform.wall', '3.70 mm'));
      await page.keyboard.press('Control+S');
      const question = page.getByRole('dialog');
      await question.waitFor();
      expect(await question.textContent()).toContain('# by another hand');
      await accessible(page, 'file changed on disk', 'dialog[open]');
      await picture(page, 'file-changed');
      const untouched = (await (await fetch(`${server}/api/designs/${own}`)).json()) as typeof original;
      expect(untouched.text).toContain('# by another hand');
      await answered(page, () => question.getByRole('button', { name: /Take theirs/ }).click());
      expect(await field(page, 'preform.wall').inputValue()).toBe('3.65 mm');
      await answered(page, () => page.keyboard.press('Control+Z')); // nothing is lost: mine is one undo away
      expect(await field(page, 'preform.wall').inputValue()).toBe('3.70 mm');
      await page.keyboard.press('Control+S');
      await page.locator('.saved[data-dirty=false]').waitFor();

      const last = (await (await fetch(`${server}/api/designs/${own}`)).json()) as typeof original;
      expect(last.text).toContain('wall: 3.70 mm');
      await put(original.text, last.version);
      // Coming back to an unchanged page reads the file again without a question.
      await answered(page, () => page.evaluate(() => void window.dispatchEvent(new Event('focus'))));
      expect(await field(page, 'preform.wall').inputValue()).toBe('3.60 mm');
      // The refused save is the browser's one complaint.
      expect(faults.splice(0).every((f) => f.includes('409'))).toBe(true);
    });
  });
});

describe('every demo design', () => {
  for (const name of ['sorrel-lime.yaml', 'wrenhollow.yaml', 'ravensholt-old.yaml', 'ravensholt-new.yaml']) {
    it(`${name} opens with a board and a drawing`, async () => {
      await at(async ({ page }) => {
        await open(page, name);
        expect(await page.locator('.bottle .outline').count()).toBe(2);
        expect(await page.locator('#board [data-key]').count()).toBeGreaterThan(10);
        await picture(page, `demo-${name}`);
      });
    });
  }
});

describe('light and dark', () => {
  it('follows the switch and keeps it', async () => {
    await at(async ({ page }) => {
      await open(page, demo);
      const film = () =>
        page.evaluate(() => getComputedStyle(document.querySelector('.board')!).backgroundColor);
      const day = await film();
      await page.getByLabel('Light or dark').selectOption('dark');
      expect(await film()).not.toBe(day);
      await page.reload();
      await page.locator('[data-key]').first().waitFor();
      expect(await film()).not.toBe(day);
    });
  });
});

describe('published checks', () => {
  it('shows the rows as this program runs them', async () => {
    await at(async ({ page }) => {
      await page.goto(address('/checks'));
      await page.locator('tbody tr').first().waitFor();
      expect(await page.locator('main').textContent()).toMatch(/\d+ of \d+ agree/);
      // Head and some rows: the other thousand are like them.
      await accessible(page, 'published checks', 'main > :not(.scroll), thead, tr:nth-child(-n + 8)');
      await picture(page, 'checks');
    });
  });
});

describe('keyboard only', () => {
  it('opens, changes, asks why, undoes without a pointer', async () => {
    await at(async ({ page }) => {
      const active = () =>
        page.evaluate(() => {
          const a = document.activeElement as HTMLElement;
          return (
            a.getAttribute('href') ??
            a.dataset.key ??
            a.closest<HTMLElement>('[data-path]')?.dataset.path ??
            a.id
          );
        });
      const tabTo = async (want: (now: string) => boolean) => {
        for (let i = 0; i < 80; i++) {
          await page.keyboard.press('Tab');
          if (want(await active())) return;
        }
        throw new Error('not reached by Tab');
      };
      await page.goto(address('/'));
      await page.locator('tbody a').first().waitFor();
      await tabTo((now) => now === `#/design/${demo}`);
      await page.keyboard.press('Enter');
      await page.locator('[data-key]').first().waitFor();
      await settled(page);
      await page.keyboard.press('/');
      await page.keyboard.type('preform.wall');
      await tabTo((now) => now === 'preform.wall');
      const before = await value(page, 'preform.mass');
      await answered(page, () => page.keyboard.type('3.50 mm'));
      expect(await value(page, 'preform.mass')).not.toBe(before);
      for (let i = 0; i < 8 && (await active()) !== 'board'; i++) await page.keyboard.press('F6');
      expect(await active()).toBe('board');
      await page.keyboard.press('Tab');
      await page.keyboard.press('ArrowDown');
      const key = await active();
      await page.keyboard.press('Enter');
      await page.locator('#why').waitFor();
      await page.keyboard.press('Escape');
      expect(await active()).toBe(key);
      await answered(page, () => page.keyboard.press('Control+Z'));
      expect(await value(page, 'preform.mass')).toBe(before);
      await page.keyboard.press('?');
      await page.getByRole('dialog').waitFor();
      await accessible(page, 'keys', 'dialog[open]');
      await page.keyboard.press('Escape');
      expect(await page.getByRole('dialog').count()).toBe(0);
    });
  });
});
