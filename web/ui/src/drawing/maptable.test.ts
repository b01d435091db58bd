import { expect, it } from 'vitest';
import { headed, mapTable, table } from './plot';

const axis = (label: string, quantity: string) => ({ label, quantity });
const write = (_: unknown, si: number) => String(si);

it('has no empty brackets where a number has no unit', () => {
  const map = {
    x: axis('below the ledge', 'length'),
    y: axis('depth, inside to outside', 'ratio'),
    v: axis('temperature', 'temperature'),
    at_x: [0, 1],
    at_y: [0.25, 0.75],
    value: [
      [1, 2],
      [3, 4],
    ],
  };
  expect(mapTable(map, { x: 'mm', y: '', v: '°C' }, write, ['A title', ''])).toEqual([
    ['A title'],
    ['temperature [°C]; below the ledge [mm] across; depth, inside to outside down', '0', '1'],
    ['0.25', '1', '2'],
    ['0.75', '3', '4'],
  ]);
  const plot = {
    x: axis('depth', 'ratio'),
    y: axis('stretch ratio', 'ratio'),
    series: [{ name: 'hoop', x: [0], y: [1] }],
  };
  expect(JSON.stringify(table(plot, { x: '', y: '' }, write))).not.toContain('[]"');
  expect(table(plot, { x: '', y: '' }, write)[0]).toEqual(['depth', 'hoop']);
  expect([headed('wall', 'mm'), headed('ratio', '')]).toEqual(['wall [mm]', 'ratio']);
});
