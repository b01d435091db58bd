// What the reader prefers; kept in the browser, nothing else is.
import type { UnitSystem } from '../api/types';

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
  #wall = $state(10);
  #autorun = $state(false);

  constructor() {
    const theme = read('theme');
    if (theme === 'light' || theme === 'dark') this.#theme = theme;
    if (read('units') === 'us') this.#units = 'us';
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

  get units(): UnitSystem {
    return this.#units;
  }
  set units(value: UnitSystem) {
    this.#units = value;
    write('units', value);
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
