import { expect, it } from 'vitest';
import type { Difference, Verdict } from '../api/types';
import { deltas } from './delta';

const figure = { key: 'wall.min', label: '', old: '0.25 mm', new: '0.24 mm', change: -1e-5, percent: -4 };
const limit = { figure: 'wall.min', side: 'min', owner: 'us' } as Verdict;

it('writes the change and the margin, and why where none is counted', () => {
  const of = (f: object, m: object) =>
    deltas({ figures: [{ ...figure, ...f }], margins: [{ ...limit, ...m }] } as unknown as Difference);
  expect(deltas(null)('wall.min')).toEqual({ text: '', why: '' });
  const counted = of({ change_display: '\u22120.010 mm' }, { lost_display: '\u22120.010 mm' });
  expect(counted('wall.min', limit)).toEqual({
    text: '\u22120.010 mm (\u22124.0\u00a0%), margin \u22120.010 mm',
    why: '',
  });
  expect(counted('bottle.mass').text).toBe('as the baseline');
  const none = { change_display: '', unlike: 'run both', unlike_mark: 'preview beside blown wall' };
  const unlike = of(none, { ...none, change_display: undefined, lost_display: '' });
  for (const d of [unlike('wall.min', limit), unlike('wall.min')]) {
    expect(d.why).toBe('run both');
    expect(d.text).toBe('none: preview beside blown wall');
    expect(d.text).not.toMatch(/\d/);
    expect(d.text).not.toContain('as the baseline');
  }
  expect(of({ change_display: '', new: '-' }, {})('wall.min').text).toBe('0.25 mm → -');
});
