import { describe, expect, it } from 'vitest';
import { badness, order, stageOf } from './stages';

describe('stages', () => {
  it.each([
    ['preform.mass', 'preform'],
    ['oven.heat', 'heat'],
    ['wall.min', 'blow'],
    ['bottle.headspace', 'fill'],
    ['pack.pressure.fill', 'fill'],
    ['pack.pressure.store', 'shelf'],
    ['growth.volume.day1', 'shelf'],
    ['bottle.tip.filled', 'handling'],
    ['closure.lift', 'opening'],
    ['footprint.total', 'cost'],
    ['something.new', 'other'],
  ])('%s belongs to %s', (key, stop) => {
    expect(stageOf(key)).toBe(stop);
    expect(order).toContain(stop);
  });

  it('puts the worst verdict first and an unknown word last', () => {
    const words = ['pass', 'odd', 'not shown', 'fail', 'not computed', 'close'];
    expect(words.toSorted((a, b) => badness(a) - badness(b))).toEqual([
      'fail',
      'close',
      'not shown',
      'not computed',
      'pass',
      'odd',
    ]);
  });
});
