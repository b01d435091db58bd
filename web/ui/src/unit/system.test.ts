import { describe, expect, it } from 'vitest';
import { lengths } from '../drawing/lengths';
import { baseOf, choicesOf, isSystem, systemOf } from './system';
import { Units } from './table';

const unit = (symbol: string, scale: number, offset = 0) => ({ symbol, scale, offset });
const inch = 0.0254;
const list = [
  unit('m', 1),
  unit('mm', 1e-3),
  unit('cm', 1e-2),
  unit('µm', 1e-6),
  unit('in', inch),
  unit('mil', inch / 1e3),
  unit('ft', 12 * inch),
];
const beside = (u: string) => (['in', 'mil', 'ft'].includes(u) ? 'mil' : u === 'µm' ? u : 'mm');
const units = new Units({
  kinds: [
    { kind: 'length', si: 'm', eu: 'mm', us: 'in', units: list },
    { kind: 'wall', si: 'm', eu: 'mm', us: 'mil', units: list },
    { kind: 'mass', si: 'kg', eu: 'g', us: 'g', units: [unit('kg', 1), unit('g', 1e-3)] },
  ],
  preferences: [
    {
      key: 'length',
      kind: 'length',
      choices: list.map((u) => ({ unit: u.symbol, shows: { length: u.symbol, wall: beside(u.symbol) } })),
    },
    {
      key: 'wall',
      kind: 'wall',
      choices: list.map((u) => ({ unit: u.symbol, shows: { wall: u.symbol } })),
    },
    { key: 'mass', kind: 'mass', choices: ['kg', 'g'].map((u) => ({ unit: u, shows: { mass: u } })) },
  ],
  used: ['length', 'mass'],
});

describe("a system with the reader's own units", () => {
  it('is a base with choices behind it', () => {
    for (const good of ['eu', 'us', 'us,length=mm', 'eu,volume=fl oz,price-per-1000=EUR/1000'])
      expect(isSystem(good), good).toBe(true);
    for (const bad of [
      '',
      'xx',
      'us,',
      'us,length',
      'us,length=',
      'us;length=mm',
      'us,a=b=c',
      `us,a=${'b'.repeat(2000)}`,
    ])
      expect(isSystem(bad), bad).toBe(false);
    expect(baseOf('us,length=mm')).toBe('us');
    expect([...choicesOf('us,length=mm,wall=µm')]).toEqual([
      ['length', 'mm'],
      ['wall', 'µm'],
    ]);
    expect(
      systemOf(
        'us',
        new Map([
          ['wall', 'µm'],
          ['length', 'mm'],
        ]),
        ['length', 'wall'],
      ),
    ).toBe('us,length=mm,wall=µm');
    expect(systemOf('eu', new Map(), ['length'])).toBe('eu');
  });

  it('shows a kind in the unit chosen, with its family, the more particular choice first', () => {
    expect(units.preferred('length', 'us')).toBe('in');
    expect(units.preferred('length', 'us,length=mm')).toBe('mm');
    expect(units.preferred('wall', 'us')).toBe('mil');
    expect(units.preferred('wall', 'us,length=mm')).toBe('mm');
    expect(units.preferred('wall', 'us,length=mm,wall=µm')).toBe('µm');
    expect(units.preferred('mass', 'us,length=mm')).toBe('g');
    expect(units.show('length', 0.305, 'us,length=cm')).toBe('30.50\u00a0cm');
    expect(units.symbols('length', 'us,length=cm')[0]).toBe('cm');
    expect(units.convert('wall', 0.00025, 'us,wall=µm')).toBeCloseTo(250);
  });

  it('is chosen and let go in the order of the table', () => {
    expect(units.choose('us', 'wall', 'µm')).toBe('us,wall=µm');
    expect(units.choose('us,wall=µm', 'length', 'mm')).toBe('us,length=mm,wall=µm');
    expect(units.choose('us,length=mm,wall=µm', 'length', '')).toBe('us,wall=µm');
  });

  it('falls back to its base where it names what the table does not know', () => {
    expect(units.known('us,wall=µm,length=mm')).toBe('us,length=mm,wall=µm');
    expect(units.known('us,length=furlong')).toBe('us');
    expect(units.known('eu,colour=red,length=mm')).toBe('eu');
  });

  it('every choice leads there and back', () => {
    for (const p of units.preferences)
      for (const c of p.choices ?? [])
        for (const base of ['eu', 'us'] as const) {
          const system = units.choose(base, p.key, c.unit);
          expect(units.known(system)).toBe(system);
          for (const [kind, symbol] of Object.entries(c.shows)) {
            expect(units.preferred(kind, system), `${system} ${kind}`).toBe(symbol);
            const back = units.parse(kind, `${units.convert(kind, 0.321, system)} ${symbol}`);
            expect(back.ok && Math.abs(back.si - 0.321) < 1e-12, `${system} ${kind}`).toBe(true);
          }
          expect(units.choose(system, p.key, '')).toBe(base);
        }
  });
});

describe('lengths of the drawing', () => {
  it('have digits and steps that go with the unit', () => {
    const eu = lengths(units, 'eu');
    expect([eu.length(0.305), eu.length(0.0036), eu.wallText(0.00025)]).toEqual(['305.0', '3.60', '0.250']);
    expect([eu.round(eu.ruler), eu.round(eu.step)]).toEqual(['50', '1']);
    const us = lengths(units, 'us');
    expect([us.length(0.305), us.length(0.0036), us.wallText(0.00025)]).toEqual(['12.008', '0.1417', '9.84']);
    expect([us.round(us.ruler), us.round(us.step)]).toEqual(['2', '0.02']);
    const cm = lengths(units, 'us,length=cm,wall=µm');
    expect([cm.lengthUnit, cm.wallUnit]).toEqual(['cm', 'µm']);
    expect([cm.length(0.305), cm.length(0.0036), cm.wallText(0.00025)]).toEqual(['30.50', '0.360', '250']);
    expect([cm.round(cm.ruler), cm.round(cm.step)]).toEqual(['5', '0.1']);
    const feet = lengths(units, 'eu,length=ft');
    expect([feet.wallUnit, feet.round(feet.ruler)]).toEqual(['mil', '0.2']);
  });
});
