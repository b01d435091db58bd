// Quantities as the page reads and prints them, from the unit table that the
// server sends: the page carries no factor of its own.
import type { UnitBase, UnitEntry, UnitKind, UnitPreference, UnitSystem, UnitTable } from '../api/types';
import { baseOf, choicesOf, systemOf } from './system';

export type Parsed =
  | { ok: true; si: number; symbol: string }
  | { ok: false; why: 'empty' | 'number' | 'unit' | 'unknown'; unit: string };

const number = /^([+-]?(?:\d+(?:\.\d+|\.(?=\s|$))?|\.\d+)(?:[eE][+-]?\d+)?)\s*(.*)$/;
const longest = 200; // bytes that the server reads of a quantity

/** The kinds of quantity, by name. */
export class Units {
  private readonly kinds: Map<string, UnitKind>;
  /** What a unit may be chosen for, in the order in which it stands in the text of a system. */
  readonly preferences: readonly UnitPreference[];
  /** Those of quantities that a design or a figure has. */
  readonly used: ReadonlySet<string>;
  private readonly chosen = new Map<UnitSystem, ReadonlyMap<string, string>>();

  constructor(table: UnitTable) {
    this.kinds = new Map(table.kinds.map((k) => [k.kind, k]));
    this.preferences = table.preferences ?? [];
    this.used = new Set(table.used ?? []);
  }

  /** The units that the reader chose, by kind; the more particular choice wins, it stands later. */
  private own(system: UnitSystem): ReadonlyMap<string, string> {
    let map = this.chosen.get(system);
    if (!map) {
      const choices = choicesOf(system);
      map = new Map(
        this.preferences.flatMap((p) => {
          const unit = choices.get(p.key);
          return Object.entries(p.choices?.find((c) => c.unit === unit)?.shows ?? {});
        }),
      );
      this.chosen.set(system, map);
    }
    return map;
  }

  /** The text itself, or its base alone where it names what the table does not know. */
  known(system: UnitSystem): UnitSystem {
    const all = [...choicesOf(system)].every(([key, unit]) =>
      this.preferences.some((p) => p.key === key && p.choices?.some((c) => c.unit === unit)),
    );
    return all ? this.choose(system, '', '') : baseOf(system);
  }

  /** The system with a unit chosen for a quantity; without a unit it follows the base again. */
  choose(system: UnitSystem, key: string, unit: string): UnitSystem {
    const choices = choicesOf(system);
    if (unit === '') choices.delete(key);
    else choices.set(key, unit);
    return systemOf(
      baseOf(system),
      choices,
      this.preferences.map((p) => p.key),
    );
  }

  kind(name: string): UnitKind | undefined {
    return this.kinds.get(name);
  }

  /** The symbols in which a kind may be written, the preferred one first. */
  symbols(name: string, system: UnitSystem): string[] {
    const kind = this.kinds.get(name);
    if (!kind) return [];
    const first = this.preferred(name, system);
    const all = kind.units.map((u) => u.symbol).filter((s) => s !== '');
    return all.includes(first) ? [first, ...all.filter((s) => s !== first)] : all;
  }

  /**
   * Reads a number with its unit as the table spells it: "3.6 mm", "0.142in",
   * "85 °C". The server knows more spellings; what is unknown here may be asked there.
   */
  parse(name: string, text: string): Parsed {
    const trimmed = text
      .trim()
      .replace(/\u2212/g, '-')
      .replace(/\u00a0|\u202f/g, ' ');
    if (trimmed === '') return { ok: false, why: 'empty', unit: '' };
    const match = number.exec(trimmed);
    if (!match || new TextEncoder().encode(text).length > longest)
      return { ok: false, why: 'number', unit: '' };
    const value = Number(match[1]!);
    const symbol = match[2]!.trim();
    const kind = this.kinds.get(name);
    const unit = kind && find(kind, symbol);
    if (!Number.isFinite(value)) return { ok: false, why: 'number', unit: symbol };
    if (!unit) return { ok: false, why: symbol === '' ? 'unit' : 'unknown', unit: symbol };
    const si = value * unit.scale + unit.offset;
    if (!sized(value) || !sized(si) || (si < 0 && fromNothing.has(name)))
      return { ok: false, why: 'number', unit: symbol };
    return { ok: true, si, symbol: unit.symbol };
  }

  /** True while the typed unit could still grow into a longer one ("m" into "mm"). */
  couldGrow(name: string, text: string): boolean {
    const symbol = number.exec(text.trim())?.[2]?.trim() ?? '';
    const kind = this.kinds.get(name);
    if (!kind || symbol === '') return false;
    return kind.units.some((u) =>
      [u.symbol, ...(u.aliases ?? [])].some((s) => s.length > symbol.length && s.startsWith(symbol)),
    );
  }

  /** An SI value as a number in the named unit, or in the preferred one of the system. */
  convert(name: string, si: number, unit: string | UnitSystem): number {
    const kind = this.kinds.get(name);
    if (!kind) return si;
    const symbol = /^(eu|us)(,|$)/.test(unit) ? this.preferred(name, unit as UnitSystem) : unit;
    const entry = find(kind, symbol);
    return entry ? (si - entry.offset) / entry.scale : si;
  }

  /**
   * The number of an SI value in a unit with the fewest digits that lead back to the value itself: what a
   * table takes along, where the page rounds.
   */
  exact(name: string, si: number, symbol: string): string {
    const v = this.convert(name, si, symbol);
    const kind = this.kinds.get(name);
    const entry = kind && find(kind, symbol);
    if (!entry) return String(v);
    for (let digits = 3; digits < 17; digits++) {
      const short = Number(v.toPrecision(digits));
      if (short * entry.scale + entry.offset === si) return String(short);
    }
    return String(v);
  }

  /** An SI value with the preferred unit of the system: "3.60 mm". */
  show(name: string, si: number, system: UnitSystem, digits = 4): string {
    const symbol = this.preferred(name, system);
    const text = significant(this.convert(name, si, system), digits);
    return symbol === '' ? text : `${text}\u00a0${symbol}`;
  }

  /** As {@link show}, in the unit of a text that says the same quantity: a height above the sea in m, not mm. */
  showLike(name: string, si: number, like: string, system: UnitSystem, digits = 4): string {
    const parsed = this.parse(name, like);
    if (!parsed.ok || parsed.symbol === '') return this.show(name, si, system, digits);
    return `${significant(this.convert(name, si, parsed.symbol), digits)}\u00a0${parsed.symbol}`;
  }

  /**
   * The least (-1) or greatest (1) usable value as {@link showLike} would tell it, with the digits that keep
   * what is read inside the range: 273.15 K, not 273.1 K.
   */
  bound(name: string, si: number, end: -1 | 1, like: string, system: UnitSystem): string {
    if (name === 'time') {
      const round = this.round(name, si);
      if (round !== '') return round;
    }
    for (let digits = 4; digits < 9; digits++) {
      const text = this.showLike(name, si, like, system, digits);
      const back = this.parse(name, text);
      if (back.ok && end * (back.si - si) <= 1e-12 * Math.abs(si)) return text;
    }
    return this.showLike(name, si, like, system, 9);
  }

  /** A value as a whole number of the largest unit in which it is one: 1 d, 10 years; '' where there is none. */
  private round(name: string, si: number): string {
    const of = (u: UnitEntry) => (si - u.offset) / u.scale;
    const whole = (v: number) => v >= 0.9 && v < 1e4 && Math.abs(v - Math.round(v)) < 1e-9 * v;
    const best = (this.kinds.get(name)?.units ?? [])
      .filter((u) => whole(of(u)))
      .toSorted((a, b) => b.scale - a.scale)[0];
    return best ? `${Math.round(of(best))}\u00a0${best.symbol}` : '';
  }

  /** The number of {@link show} alone, for a drawing whose unit stands in the title block. */
  figure(name: string, si: number, system: UnitSystem, digits = 4): string {
    return significant(this.convert(name, si, system), digits);
  }

  /** The unit in which the reader sees a kind. */
  preferred(name: string, system: UnitSystem): string {
    return this.own(system).get(name) ?? this.usual(name, baseOf(system));
  }

  /** The unit in which the trade of a side of the ocean sees a kind. */
  usual(name: string, base: UnitBase): string {
    return this.kinds.get(name)?.[base] ?? '';
  }
}

/** Kinds with a least value, absolute zero or vacuum: of what is negative the server has the word. */
const fromNothing = new Set(['temperature', 'absolute pressure', 'gauge pressure']);
/** Sizes that the server converts. */
const sized = (v: number) => v === 0 || (Math.abs(v) >= 1e-200 && Math.abs(v) <= 1e200);

function find(kind: UnitKind, symbol: string): UnitEntry | undefined {
  const wanted = symbol.replace(/\s+/g, ' ');
  return kind.units.find((u) => u.symbol === wanted || (u.aliases ?? []).includes(wanted));
}

/** A number with the given count of significant digits, never in powers of ten between 1e-4 and 1e7. */
export function significant(value: number, digits: number): string {
  if (!Number.isFinite(value)) return '–';
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size < 1e-4 || size >= 1e7) return value.toExponential(digits - 1).replace('-', '\u2212');
  const decimals = Math.max(0, digits - 1 - Math.floor(Math.log10(size)));
  return value.toFixed(Math.min(decimals, 8)).replace('-', '\u2212');
}

/** A count with its digits in groups of three, parted by narrow spaces: 30 000 000. */
export const grouped = (value: number): string =>
  Math.round(value)
    .toString()
    .replace(/\B(?=(\d{3})+$)/g, '\u202f');
