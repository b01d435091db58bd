import { describe, expect, it } from 'vitest';
import type { Board } from '../api/types';
import { badness, order, present, stopOf, stopsOf } from './stages';

describe('stages', () => {
  it.each([
    ['inject', 'preform'],
    ['ovenheat', 'heat'],
    ['wall', 'blow'],
    ['pressure', 'fill'],
    ['shelf', 'shelf'],
    ['stack', 'handling'],
    ['closure', 'opening'],
    ['footprint', 'recovery'],
    ['something new', 'other'],
  ])('%s stands at %s', (stage, stop) => {
    expect(stopOf(stage)).toBe(stop);
    expect(order).toContain(stop);
  });

  it('finds the stop of a figure, computed or left out', () => {
    const board = {
      figures: [{ key: 'wall.min', stage: 'wall' }],
      problems: [{ key: 'shelf.water.end', stage: 'shelf', reason: '' }],
    } as unknown as Board;
    const stop = stopsOf(board);
    expect(['wall.min', 'shelf.water.end', 'unheard.of'].map(stop)).toEqual(['blow', 'shelf', 'other']);
    expect(stopsOf(null)('wall.min')).toBe('other');
    expect(stopsOf(board, { 'burst.pressure': 'strength' })('burst.pressure')).toBe('handling');
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

  it('offers only the stops that have something', () => {
    const board = {
      figures: [
        { key: 'a', stage: 'wall' },
        { key: 'b', stage: 'inject' },
      ],
      verdicts: [{ figure: 'c' }],
    } as unknown as Board;
    expect(present(board, { c: 'shelf' })).toEqual(['preform', 'blow', 'shelf']);
    expect(present(null)).toEqual([]);
  });
});
