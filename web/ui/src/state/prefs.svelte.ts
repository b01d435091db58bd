// What the reader prefers; kept in the browser, nothing else is.
import type { UnitBase, UnitSystem } from '../api/types';
import { baseOf, choicesOf, isSystem } from '../unit/system';

export type Theme = 'auto' | 'light' | 'dark';

function read(key: string): string | null {
  try {
    return localStorage.getItem(`costrel.${key}`);
  } catch {
    return null; // storage is forbidden: the preference lasts as long as the page
  }
}

function write(key: string, value: string): void {
  try {
    localStorage.setItem(`costrel.${key}`, value);
  } catch {
    // see read
  }
}

class Prefs {
  #theme = $state<Theme>('auto');
  #units = $state<UnitSystem>('eu');
  #choosing = $state(false);
  #wall = $state(10);
  #autorun = $state(false);

  constructor() {
    const theme = read('theme');
    if (theme === 'light' || theme === 'dark') this.#theme = theme;
    const units = read('units') ?? '';
    this.#units = isSystem(units) ? units : units.startsWith('us') ? 'us' : 'eu';
    const wall = Number(read('wall'));
    if ([1, 5, 10, 20].includes(wall)) this.#wall = wall;
    this.#autorun = read('autorun') === 'yes';
    this.#paint();
  }

  get theme(): Theme {
    return this.#theme;
  }
  set theme(value: Theme) {
    this.#theme = value;
    write('theme', value);
    this.#paint();
  }

  /** The units of the reader: a base, and what this reader wants in another unit. */
  get units(): UnitSystem {
    return this.#units;
  }
  set units(value: UnitSystem) {
    this.#units = value;
    write('units', value);
  }

  get base(): UnitBase {
    return baseOf(this.#units);
  }
  /** Another base keeps the reader's own choices. */
  set base(base: UnitBase) {
    this.units = `${base}${this.#units.slice(2)}` as UnitSystem;
  }
  /** How many quantities have a unit of the reader's own. */
  get own(): number {
    return choicesOf(this.#units).size;
  }

  /** The choice of units is open. */
  get choosing(): boolean {
    return this.#choosing;
  }
  set choosing(value: boolean) {
    this.#choosing = value;
  }

  /** How many times thicker the wall is drawn than it is. */
  get wall(): number {
    return this.#wall;
  }
  set wall(value: number) {
    this.#wall = value;
    write('wall', String(value));
  }

  /** A full run starts by itself when changes have settled. */
  get autorun(): boolean {
    return this.#autorun;
  }
  set autorun(value: boolean) {
    this.#autorun = value;
    write('autorun', value ? 'yes' : 'no');
  }

  #paint(): void {
    if (this.#theme === 'auto') delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = this.#theme;
  }
}

export const prefs = new Prefs();
