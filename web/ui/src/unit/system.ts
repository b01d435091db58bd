// A reader's habit of units as the server reads it: eu or us, and behind it the quantities that this reader
// wants in another unit, "us,length=mm,pressure=bar".
import type { UnitBase, UnitSystem } from '../api/types';

const form = /^(eu|us)(,[^,=]+=[^,=]+)*$/;
const longest = 2000; // bytes that the server reads

/** True for a text of that form; whether its quantities and units exist is for the table of units to say. */
export const isSystem = (text: string): text is UnitSystem => text.length <= longest && form.test(text);

export const baseOf = (system: UnitSystem): UnitBase => (system.startsWith('us') ? 'us' : 'eu');

/** The reader's own choices: the unit by the key of the quantity. */
export const choicesOf = (system: UnitSystem): Map<string, string> =>
  new Map(
    system
      .split(',')
      .slice(1)
      .map((part) => part.split('=', 2) as [string, string]),
  );

/** The text of a base with choices, these in the order of the keys. */
export function systemOf(
  base: UnitBase,
  choices: ReadonlyMap<string, string>,
  order: readonly string[],
): UnitSystem {
  const list = order.filter((key) => choices.has(key)).map((key) => `${key}=${choices.get(key)!}`);
  return list.length === 0 ? base : `${base},${list.join(',')}`;
}
