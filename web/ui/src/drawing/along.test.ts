import { expect, it } from 'vitest';
import type { Plot } from '../api/types';
import { along, fieldOf } from './along';

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

const field = (key: string, stale = false) => ({ plot: { ...plot('arc from the gate'), key }, stale });

it('has one name for the wall, and no stretch of the preview beside that of the blown wall', () => {
  const keys = (...list: Parameters<typeof along>[0][number][]) => along(list).map((f) => f.key);
  expect(keys(field('wall.arc'), field('stretch.arc'))).toEqual(['stretch.arc 0', 'stretch.arc 1']);
  expect(keys(field('wall.arc'), field('stretch.arc'), field('blow.stretch'))).toEqual([
    'blow.stretch 0',
    'blow.stretch 1',
  ]);
  // A blow from before the changes since is no reason to hide the preview of now.
  expect(keys(field('stretch.arc'), field('blow.stretch', true))).toContain('stretch.arc 0');
});

it('says of each stop what is true: there, with the full run, or never and why', () => {
  const why = 'the pack holds no pressure';
  const later = [
    { plot: 'strength.stress', full: true },
    { plot: 'reheat.bottle', full: true },
  ];
  const never = [{ plot: 'strength.stress', full: false, why }];
  expect(fieldOf('fill', along([field('strength.stress')]), [])).toEqual({
    key: 'strength.stress 0',
    missing: '',
  });
  expect(fieldOf('fill', [], later).missing).toBe('Stress along the wall comes with the full run.');
  expect(fieldOf('fill', [], never).missing).toBe(`No stress along the wall: ${why}.`);
  // At the heat stop the temperature is that of the preform, not of the ejected bottle.
  expect(fieldOf('heat', along([field('blow.temperature'), field('reheat.bottle')]), []).key).toBe(
    'reheat.bottle 0',
  );
  expect(fieldOf('heat', along([field('blow.temperature')]), later)).toEqual({
    key: '',
    missing: 'Temperature along the wall comes with the full run.',
  });
  expect(fieldOf('opening', [], later).missing).toBe('');
});
