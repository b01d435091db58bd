import { describe, expect, it } from 'vitest';
import { Units, grouped, significant } from './table';

// A cut of the server's table with exact factors: 1 in = 25.4 mm, 1 psi =
// 6894.757293168 Pa, 0 °C = 273.15 K.
const units = new Units({
  kinds: [
    {
      kind: 'length',
      si: 'm',
      eu: 'mm',
      us: 'in',
      units: [
        { symbol: 'm', scale: 1, offset: 0 },
        { symbol: 'mm', scale: 1e-3, offset: 0 },
        { symbol: 'µm', aliases: ['um', 'μm'], scale: 1e-6, offset: 0 },
        { symbol: 'in', aliases: ['inch', '"'], scale: 0.0254, offset: 0 },
        { symbol: 'mil', scale: 2.54e-5, offset: 0 },
      ],
    },
    {
      kind: 'time',
      si: 's',
      eu: 's',
      us: 's',
      units: [
        { symbol: 's', scale: 1, offset: 0 },
        { symbol: 'min', scale: 60, offset: 0 },
        { symbol: 'h', scale: 3600, offset: 0 },
        { symbol: 'd', scale: 86400, offset: 0 },
        { symbol: 'weeks', scale: 604800, offset: 0 },
        { symbol: 'years', scale: 31557600, offset: 0 },
      ],
    },
    {
      kind: 'temperature',
      si: 'K',
      eu: '°C',
      us: '°F',
      units: [
        { symbol: 'K', scale: 1, offset: 0 },
        { symbol: '°C', aliases: ['C', 'degC'], scale: 1, offset: 273.15 },
        { symbol: '°F', aliases: ['F', 'degF'], scale: 5 / 9, offset: 459.67 * (5 / 9) },
      ],
    },
    {
      kind: 'gas permeability',
      si: 'mol·m/(m²·s·Pa)',
      eu: 'cc·mm/(m²·d·atm)',
      us: 'cc·mil/(100 in²·d·atm)',
      units: [{ symbol: 'cc·mil/(100 in²·d·atm)', scale: 2, offset: 0 }],
    },
    { kind: 'ratio', si: '', eu: '', us: '', units: [{ symbol: '', scale: 1, offset: 0 }] },
  ],
});

const si = (kind: string, text: string) => {
  const p = units.parse(kind, text);
  return p.ok ? p.si : p.why;
};

describe('parse', () => {
  it.each([
    ['length', '3.6 mm', 0.0036],
    ['length', '0.142 in', 0.142 * 0.0254],
    ['length', '0.142in', 0.142 * 0.0254],
    ['length', '281 um', 281e-6],
    ['length', '\u22122 mm', -0.002],
    ['length', '.5e1 mm', 0.005],
    ['temperature', '85 °C', 358.15],
    ['temperature', '32 °F', 273.15],
    ['gas permeability', '10 cc·mil/(100 in²·d·atm)', 20],
    ['ratio', '2.5', 2.5],
  ])('reads %s %s', (kind, text, want) => {
    expect(si(kind, text)).toBeCloseTo(want, 12);
  });

  it.each([
    ['length', '', 'empty'],
    ['length', '3.6', 'unit'],
    ['length', 'thick', 'number'],
    ['length', '3.6 bar', 'unknown'],
    ['length', '3.6 MM', 'unknown'],
    ['length', '3,6 mm', 'unknown'],
    ['length', '1.2.3 mm', 'unknown'],
    ['length', '1e999 mm', 'number'],
    ['ratio', '2.5 mm', 'unknown'],
    ['temperature', '85', 'unit'],
  ])('refuses %s “%s”: %s', (kind, text, why) => {
    expect(si(kind, text)).toBe(why);
  });

  it('gives back what it shows, in every unit', () => {
    for (const kind of ['length', 'temperature']) {
      for (const entry of units.kind(kind)!.units) {
        for (const v of [0.00028, 0.0036, 0.305, 295.15, 311]) {
          const text = `${units.convert(kind, v, entry.symbol).toPrecision(15)} ${entry.symbol}`;
          expect(si(kind, text)).toBeCloseTo(v, 10);
        }
      }
    }
  });
});

describe('couldGrow', () => {
  it('knows the unit that begins a longer one', () => {
    expect(units.couldGrow('length', '3.6 m')).toBe(true);
    expect(units.couldGrow('length', '3.6 mm')).toBe(false);
    expect(units.couldGrow('length', '3.6')).toBe(false);
    expect(units.couldGrow('length', '11 mil')).toBe(false);
  });
});

describe('show', () => {
  it('prints the preferred unit of each system', () => {
    expect(units.show('length', 0.0036, 'eu')).toBe('3.600\u00a0mm');
    expect(units.show('length', 0.0036, 'us')).toBe('0.1417\u00a0in');
    expect(units.show('temperature', 358.15, 'eu', 3)).toBe('85.0\u00a0°C');
    expect(units.show('ratio', 2.5, 'eu', 2)).toBe('2.5');
  });
});

describe('bound', () => {
  it('reads back inside the range, in any unit', () => {
    expect(units.bound('temperature', 273.15, -1, '290 K', 'eu')).toBe('273.15\u00a0K');
    expect(units.bound('temperature', 273.15, -1, '', 'us')).toBe('32.00\u00a0°F');
    expect(units.bound('length', 0.0015, -1, '0.1 in', 'eu')).toBe('0.05906\u00a0in');
  });
  it('is a round time where there is one', () => {
    expect(units.bound('time', 86400, -1, '20 weeks', 'eu')).toBe('1\u00a0d');
    expect(units.bound('time', 315576000, 1, '20 weeks', 'eu')).toBe('10\u00a0years');
    expect(units.bound('time', 0.1, -1, '2 s', 'eu')).toBe('0.1000\u00a0s');
    expect(units.bound('time', 7200, 1, '30 min', 'us')).toBe('2\u00a0h');
  });
});

describe('what the server alone reads', () => {
  it.each([
    ['temperature', '-1 K'],
    ['length', '1e-300 mm'],
    ['length', '5.mm'],
    ['length', `1${'0'.repeat(210)} mm`],
  ])('%s %s', (kind, text) => {
    expect(units.parse(kind, text).ok).toBe(false);
  });
});

describe('significant', () => {
  it.each([
    [0.281, 3, '0.281'],
    [305, 4, '305.0'],
    [0, 3, '0'],
    [-4.29, 3, '\u22124.29'],
    [1234567, 3, '1234567'],
    [2.5e-12, 3, '2.50e\u221212'],
    [Number.NaN, 3, '–'],
    [Number.POSITIVE_INFINITY, 3, '–'],
  ])('%d at %d digits is %s', (value, digits, want) => {
    expect(significant(value, digits)).toBe(want);
  });
});

it('a count is parted in groups of three', () => {
  expect([999, 1000, 30_000_000].map(grouped)).toEqual(['999', '1\u202f000', '30\u202f000\u202f000']);
});

describe('exact', () => {
  it('leads back to the value, with no more digits than that takes', () => {
    expect(units.exact('length', 0.0003, 'mm')).toBe('0.3');
    expect(units.exact('ratio', 1.25, '')).toBe('1.25');
    expect(units.exact('length', 0.000281234567, 'mm')).toBe('0.281234567');
    let seed = 1;
    const random = () => (seed = (seed * 16807) % 2147483647) / 2147483647;
    for (const [kind, symbol, scale, offset] of [
      ['length', 'mm', 1e-3, 0],
      ['length', 'mil', 2.54e-5, 0],
      ['temperature', '°F', 5 / 9, 459.67 * (5 / 9)],
    ] as const)
      for (let i = 0; i < 200; i++) {
        const si = Number((random() * 400).toPrecision(6)); // the digits of a curve
        const back = Number(units.exact(kind, si, symbol)) * scale + offset;
        expect(Math.abs(back - si), `${si} ${symbol}`).toBeLessThanOrEqual(
          1e-15 * Math.abs(si) + 1e-13 * offset,
        );
      }
  });
});
