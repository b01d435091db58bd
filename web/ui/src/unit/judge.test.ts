import { describe, expect, it } from 'vitest';
import { judge } from './judge';
import { Units } from './table';

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
        { symbol: 'in', scale: 0.0254, offset: 0 },
      ],
    },
    { kind: 'count', si: '', eu: '', us: '', units: [{ symbol: '', scale: 1, offset: 0 }] },
  ],
});
const wall = { quantity: 'length', min: 0.0015, max: 0.007, value: 0.0036 };
const fault = (text: string, input: Parameters<typeof judge>[1] = wall) => {
  const j = judge(units, input, text, 'eu');
  return 'fault' in j ? j.fault : j.si;
};

describe('judge', () => {
  it('takes any unit of the kind', () => {
    expect(fault('0.142 in')).toBeCloseTo(0.0036068, 12);
    expect(fault('1.5 mm')).toBeCloseTo(0.0015, 12);
  });

  it('says in words what is missing', () => {
    expect(fault('3.6')).toBe('“3.6” has no unit. Write one of mm, m, in.');
    expect(fault(' 3.6 bar')).toBe('“bar” is no unit of this quantity. Write one of mm, m, in.');
    expect(fault('')).toBe('Write a number with its unit: mm, m, in.');
    expect(fault('thick')).toContain('does not begin with a number');
  });

  it('names the bound in the unit that was typed', () => {
    expect(fault('9 in', wall)).toContain('above 0.27559\u00a0in');
    expect(fault('-3.6 mm', wall)).toContain('below 1.500\u00a0mm');
  });

  it('leaves to the server what it may read better', () => {
    const ask = (text: string) => {
      const j = judge(units, wall, text, 'eu');
      return 'fault' in j && j.ask;
    };
    expect(ask('3.6 millimetres')).toBe(true);
    expect(ask('×10 mm')).toBe(true);
    expect(ask('3.6')).toBe(false);
    expect(ask('9 mm')).toBe(false);
  });

  it('names the limit that is passed', () => {
    expect(fault('3.6 m')).toBe('3.6 m is above 0.007000\u00a0m, the most that can be computed.');
    expect(fault('1.4 mm')).toBe('1.4 mm is below 1.500\u00a0mm, the least that can be computed.');
  });

  it('looks at whole numbers and lets words pass', () => {
    const feet = { quantity: '', min: 4, max: 7, value: 5 };
    expect(fault('6', feet)).toBe(6);
    expect(fault('5.5', feet)).toContain('not a whole number');
    expect(fault('9', feet)).toContain('above 7');
    expect(fault('-2', feet)).toBe('-2 is below 4, the least that can be computed.');
    expect(fault('1e9', feet)).toBe('1e9 is above 7, the most that can be computed.');
    expect(fault('5e0', feet)).toBe('Write “5e0” in digits: 5.');
    expect(fault('five', feet)).toContain('not a whole number');
    expect(fault('', { quantity: '', value: 'Sorrel' })).toContain('empty');
    expect(fault('Sorrel Lime', { quantity: '', value: 'x' })).toBeNaN();
  });

  it('wants a bare number where the kind has no unit', () => {
    const count = { quantity: 'count', min: 1, max: 8, value: 5 };
    expect(fault('5', count)).toBe(5);
    expect(fault('1.5', count)).toContain('not a whole number');
    expect(fault('5 mm', count)).toContain('write the number alone');
    expect(fault('', count)).toBe('Write a number.');
    expect(fault('-2', count)).toBe('-2 is below 1, the least that can be computed.');
  });
});
