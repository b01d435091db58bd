// The range in which an input can be computed, in words.
import type { ResolvedInput, UnitSystem } from '../api/types';
import { words } from '../words';
import type { Units } from './table';

/** "Usable from 1 mm to 10 mm."; '' for words, switches and whole numbers, and where nothing bounds it. */
export function rangeText(
  input: Pick<ResolvedInput, 'quantity' | 'min' | 'max' | 'display'>,
  units: Units,
  system: UnitSystem,
): string {
  if (input.quantity === '') return '';
  const show = (si: number, end: -1 | 1) => units.bound(input.quantity, si, end, input.display, system);
  const { min, max } = input;
  if (typeof min === 'number' && typeof max === 'number')
    return words.inputs.range(show(min, -1), show(max, 1));
  if (typeof min === 'number') return words.inputs.atLeast(show(min, -1));
  if (typeof max === 'number') return words.inputs.atMost(show(max, 1));
  return '';
}
