import { expect, it } from 'vitest';
import type { Plot } from '../api/types';
import { along } from './along';

const plot = (label: string): Plot =>
  ({
    key: 'strength.stress',
    stage: 'strength',
    title: 'Stress',
    x: { label, quantity: 'length', unit: 'mm' },
    y: { label: 'stress', quantity: 'stress' },
    series: [
      { name: 'inside', x: [0, 0.1], y: [1e6, 3e6] },
      { name: 'outside', x: [0, 0.1], y: [2e6, 2e6] },
    ],
  }) as unknown as Plot;

it('takes the curves along the wall, and reads them between and beyond their ends', () => {
  const list = along([{ plot: plot('arc from the gate'), stale: true }]);
  expect(list.map((f) => f.name)).toEqual(['Stress: inside', 'Stress: outside']);
  expect(list[0]!.range).toEqual([1e6, 3e6]);
  expect(list[0]!.at(0.05)).toBeCloseTo(2e6, 3);
  expect(list[0]!.at(0.2)).toBeCloseTo(3e6, 3);
  expect(list[0]!.stale).toBe(true);
});

it('has colours for the body where the gate lies far above it', () => {
  const gate = plot('arc from the gate');
  gate.series![0]!.x = [0, 1, 2, 3, 4];
  gate.series![0]!.y = [90, 1, 2, 3, 1];
  const [field] = along([{ plot: gate, stale: false }]);
  expect([...field!.range, field!.beyond]).toEqual([1, 5, true]);
});

it('leaves what runs over time', () => {
  expect(along([{ plot: plot('time'), stale: false }])).toEqual([]);
});
