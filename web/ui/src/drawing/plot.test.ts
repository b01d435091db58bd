import { describe, expect, it } from 'vitest';
import type { Axis } from '../api/types';
import { Units } from '../unit/table';
import {
  csv,
  extent,
  isShape,
  longest,
  nearestPoint,
  pointNear,
  oneScale,
  roomy,
  stepText,
  steps,
  table,
  unitOf,
  valueAt,
} from './plot';

const length: Axis = { label: 'arc', quantity: 'length', unit: 'mm' };
const units = new Units({
  kinds: [
    {
      kind: 'length',
      si: 'm',
      eu: 'mm',
      us: 'in',
      units: [
        { symbol: 'mm', scale: 1e-3, offset: 0 },
        { symbol: 'in', scale: 0.0254, offset: 0 },
      ],
    },
    { kind: 'ratio', si: '', eu: '', us: '', units: [{ symbol: '', scale: 1, offset: 0 }] },
  ],
});

describe('axes', () => {
  it('step in round numbers through zero', () => {
    expect(steps([-3, 11], 5)).toEqual([0, 5, 10]);
    expect(steps([0, 0.17], 4)).toEqual([0, 0.05, 0.1, 0.15000000000000002]);
    expect(steps([2, 2], 4)).toEqual([2]);
  });
  it('write steps with the decimals they need', () => {
    expect(stepText(0.15000000000000002, 0.05)).toBe('0.15');
    expect(stepText(-20, 10)).toBe('\u221220');
    expect(stepText(0, 0.1)).toBe('0');
    expect(stepText(2.5, 0.5)).toBe('2.5');
  });
  it('show zero when it is near, and room', () => {
    expect(roomy([1, 10])).toEqual([0, 10.54]);
    expect(roomy([90, 100])).toEqual([89.4, 100.6]);
    expect(roomy([3, 3])).toEqual([0, 4.5]);
  });
  it('take the unit that the server names, none for a bare number', () => {
    expect(unitOf(length)).toBe('mm');
    expect(unitOf({ ...length, unit: 'in' })).toBe('in');
    expect(unitOf({ label: 'wall', quantity: 'wall', unit: 'mil' })).toBe('mil');
    expect(unitOf({ label: 'stretch', quantity: 'ratio' })).toBe('');
  });
  it('find the extent of all', () => {
    expect(extent([[3, 1], [], [7]])).toEqual([1, 7]);
    expect(extent([[]])).toBeNull();
  });
});

describe('readings', () => {
  it('lie on the line between the points, and nowhere outside', () => {
    expect(valueAt([0, 1, 3], [10, 20, 40], 2)).toBe(30);
    expect(valueAt([3, 1, 0], [40, 20, 10], 2)).toBe(30);
    expect(valueAt([0, 1], [1, 2], 1.5)).toBeNull();
    expect(valueAt([], [], 0)).toBeNull();
  });
  it('take the nearest point of a cloud', () => expect(nearestPoint([0, 5, 9], 6)).toBe(1));
  it('take no point that is far away', () => {
    expect(pointNear([0, 5, 9], 6, 1)).toBe(1);
    expect(pointNear([0, 5, 9], 7, 1)).toBe(-1);
    expect(pointNear([0, 5, 9], 30, 1)).toBe(-1);
    expect(pointNear([], 0, 1)).toBe(-1);
  });
});

describe('tables', () => {
  it('share the first column, convert, keep bands and remarks', () => {
    const x = [0, 0.001];
    const rows = table(
      {
        x: length,
        y: { label: 'stretch', quantity: 'ratio' },
        series: [
          { name: 'hoop', x, y: [1, 2], lo: [0.9, 1.9], hi: [1.1, 2.1] },
          { name: 'axial', x, y: [3, 4] },
          { name: 'pulls', x: [0.002], y: [5], points: true },
        ],
      },
      { x: 'mm', y: '' },
      (axis, si, unit) => units.exact(axis.quantity, si, unit),
      ['estimate, not measured', ''],
    );
    expect(rows).toEqual([
      ['estimate, not measured'],
      ['arc [mm]', 'hoop', 'hoop, low', 'hoop, high', 'axial', 'arc [mm]', 'pulls'],
      ['0', '1', '0.9', '1.1', '3', '2', '5'],
      ['1', '2', '1.9', '2.1', '4', '', ''],
    ]);
    expect(csv(rows)).toContain('"estimate, not measured"\r\n');
    expect(csv([['say "no"']])).toBe('"say ""no"""\r\n');
    // What a spreadsheet would compute is led by an apostrophe (OWASP, CSV injection); numbers are not touched.
    const text = ['=1+1', '+a', '-a', '@a', '\tb', '-0.5 g'];
    expect(csv([text])).toBe(`'${text.join(",'")}\r\n`);
    const numbers = ['-0.5', '+3', '-1.2e-5', '.5', '0', '-7.'];
    expect(csv([numbers])).toBe(`${numbers.join(',')}\r\n`);
  });
});

describe('a shape', () => {
  const axis = (label: string, quantity = 'length') => ({ label, quantity, unit: 'mm' });
  it('is one with a height over a radius', () => {
    expect(isShape({ x: axis('radius'), y: axis('height') })).toBe(true);
    expect(isShape({ x: axis('arc from the gate'), y: axis('wall') })).toBe(false);
    expect(isShape({ x: axis('time', 'time'), y: axis('height') })).toBe(false);
  });
  it('has one scale, from the larger side', () => {
    expect(oneScale([0, 50], [0, 300], 2)).toEqual([
      [-275, 325],
      [0, 300],
    ]);
    expect(oneScale([0, 600], [0, 100], 2)).toEqual([
      [0, 600],
      [-100, 200],
    ]);
  });
});

it('finds the longest reading', () => {
  expect(longest(['4.1 %', '12.25 %', '', '99.99 %'])).toBe('12.25 %');
  expect(longest([])).toBe('');
});
