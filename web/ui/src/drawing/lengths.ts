// Numbers of the drawing: lengths in mm or inches, walls in mm or mil, masses.
import type { UnitSystem } from '../api/types';
import type { Units } from '../unit/table';

export function lengths(units: Units, system: UnitSystem) {
  const wallUnit = system === 'us' ? 'mil' : units.preferred('length', system);
  const lengthUnit = units.preferred('length', system);
  const digits = (m: number, decimalsFor: (v: number) => number) => {
    const v = units.convert('length', m, system);
    return v.toFixed(decimalsFor(Math.abs(v))).replace('-', '\u2212');
  };
  const wall = (m: number, decimals: number) => units.convert('length', m, wallUnit).toFixed(decimals);
  return {
    wallUnit,
    lengthUnit,
    digits,
    wall,
    length: (m: number) => digits(m, (v) => (system === 'us' ? (v < 1 ? 4 : 3) : v < 10 ? 2 : 1)),
    wallText: (m: number) => wall(m, system === 'us' ? 2 : 3),
    perUnit: 1 / (units.convert('length', 1, system) || 1), // m
    perWallUnit: 1 / (units.convert('length', 1, wallUnit) || 1), // m
    mass: (grams: number) => units.show('mass', grams / 1000, system, 4),
  };
}

export type Lengths = ReturnType<typeof lengths>;
