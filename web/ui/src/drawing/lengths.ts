// Numbers of the drawing: lengths in mm or inches, walls in mm or mil, or in the reader's own units; masses.
import type { UnitSystem } from '../api/types';
import type { Units } from '../unit/table';

/** Decimals with which a unit shows steps of a size, m. */
const decimalsOf = (step: number, scale: number) => Math.max(0, Math.round(-Math.log10(step / scale)));

/** The round number next to a value: 1, 2 or 5 times a power of ten. */
function roundest(value: number): number {
  const power = 10 ** Math.floor(Math.log10(value));
  const list = [1, 2, 5, 10].map((n) => n * power);
  return list.reduce((a, b) => (Math.abs(Math.log(b / value)) < Math.abs(Math.log(a / value)) ? b : a));
}

export function lengths(units: Units, system: UnitSystem) {
  const wallUnit = units.preferred('wall', system);
  const lengthUnit = units.preferred('length', system);
  const inches = lengthUnit === 'in';
  const perUnit = 1 / (units.convert('length', 1, lengthUnit) || 1); // m
  const perWallUnit = 1 / (units.convert('wall', 1, wallUnit) || 1); // m
  const digits = (m: number, decimalsFor: (v: number) => number) => {
    const v = m / perUnit;
    return v.toFixed(decimalsFor(Math.abs(v))).replace('-', '\u2212');
  };
  const wall = (m: number, decimals: number) => units.convert('wall', m, wallUnit).toFixed(decimals);
  const wallDecimals = wallUnit === 'mil' ? 2 : decimalsOf(1e-6, perWallUnit);
  return {
    wallUnit,
    lengthUnit,
    digits,
    wall,
    length: (m: number) =>
      digits(m, (v) =>
        inches ? (v < 1 ? 4 : 3) : decimalsOf(Math.abs(m) < 0.00999999 ? 1e-5 : 1e-4, perUnit),
      ),
    /** A length that is round in its unit, without needless zeros. */
    round: (m: number) => String(Number((m / perUnit).toPrecision(6))),
    /** A wall among the dimensions: with its unit where walls are not read in that of lengths. */
    dimension: (m: number) =>
      wallUnit === lengthUnit
        ? wall(m, decimalsOf(1e-5, perWallUnit))
        : `${wall(m, wallUnit === 'mil' ? 1 : decimalsOf(1e-5, perWallUnit))} ${wallUnit}`,
    wallText: (m: number) => wall(m, wallDecimals),
    wallDecimals,
    perUnit,
    perWallUnit,
    /** Steps of the ruler, and of what is moved by a key, m: round in the unit. */
    ruler: roundest(0.05 / perUnit) * perUnit,
    step: (inches ? 0.02 : roundest(0.001 / perUnit)) * perUnit,
    mass: (grams: number) => units.show('mass', grams / 1000, system, 4),
  };
}

export type Lengths = ReturnType<typeof lengths>;
