import { describe, expect, it } from 'vitest';
import { cellPath, cellText, withCell } from './cells';

describe('cells', () => {
  it('have a path in the design', () => {
    expect(cellPath('bottle.profile', 'r mm', 3)).toBe('bottle.profile[3].r');
    expect(cellPath('bottle.planes', 'planes mm', 1)).toBe('bottle.planes[1]');
    expect(cellPath('limits', 'owner', 0)).toBe('limits[0].owner');
  });

  it('stand in a whole table that is written anew', () => {
    const table = {
      columns: ['z mm', 'via'],
      rows: [
        ['0', ''],
        ['5', ''],
      ],
    };
    expect(withCell(table, 1, 1, 'curve')).toBe('z mm\tvia\n0\t\n5\tcurve');
  });

  it('carry the unit of the column they are shown in', () => {
    expect(cellText('r mm', ' 50.5 ')).toBe('50.5 mm');
    expect(cellText('r in', '2')).toBe('2 in');
    expect(cellText('r mm', '2 in')).toBe('2 in');
    expect(cellText('power %', '60')).toBe('60 %');
    expect(cellText('via', 'curve')).toBe('curve');
    expect(cellText('zone', '3')).toBe('3');
    expect(cellText('r mm', '')).toBe('');
  });
});
