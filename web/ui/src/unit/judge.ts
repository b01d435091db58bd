// What is wrong with a typed quantity, in words.
import type { ResolvedInput, UnitSystem } from '../api/types';
import { words } from '../words';
import type { Units } from './table';

/** A usable value, or the fault in words; ask is set when the server, which knows more spellings, may see it otherwise. */
export type Judgement = { si: number } | { fault: string; ask: boolean };

export function judge(
  units: Units,
  input: Pick<ResolvedInput, 'quantity' | 'min' | 'max' | 'value'>,
  text: string,
  system: UnitSystem,
): Judgement {
  const kind = input.quantity;
  if (kind === '') return plain(input, text);
  const symbols = units.symbols(kind, system);
  const named = symbols.filter((s) => s !== '1');
  const list = [...named, ...(named.length < symbols.length ? [words.unit.part] : [])].join(', ');
  const parsed = units.parse(kind, text);
  if (!parsed.ok) {
    const w = words.unit;
    switch (parsed.why) {
      case 'empty':
        return { fault: symbols.length > 0 ? w.empty(list) : w.emptyBare, ask: false };
      case 'number':
        return { fault: w.number(text.trim()), ask: true };
      case 'unit':
        return { fault: w.needs(text.trim(), list), ask: false };
      case 'unknown':
        return {
          fault: symbols.length > 0 ? w.unknown(parsed.unit, list) : w.unknownBare(parsed.unit),
          ask: true,
        };
    }
  }
  const { min, max } = input;
  const show = (si: number, end: -1 | 1) =>
    kind === 'count' ? String(si) : units.bound(kind, si, end, text, system);
  if (typeof min === 'number' && below(parsed.si, min)) {
    return { fault: words.unit.low(text.trim(), show(min, -1)), ask: false };
  }
  if (typeof max === 'number' && below(max, parsed.si)) {
    return { fault: words.unit.high(text.trim(), show(max, 1)), ask: false };
  }
  if (kind === 'count' && !Number.isInteger(parsed.si)) {
    return { fault: words.unit.whole(text.trim()), ask: false };
  }
  return { si: parsed.si };
}

/** A bound that is typed in another unit may come out a rounding beyond it. */
const below = (a: number, b: number) => a < b - 1e-12 * Math.abs(b);

/** Words are taken as they are; a whole number is looked at. */
function plain(input: Pick<ResolvedInput, 'min' | 'max' | 'value'>, text: string): Judgement {
  const t = text.trim();
  if (t === '') return { fault: words.unit.emptyWords, ask: false };
  if (typeof input.value !== 'number') return { si: Number.NaN };
  const n = Number(t.replace('\u2212', '-'));
  if (!Number.isInteger(n)) return { fault: words.unit.whole(t), ask: false };
  if (typeof input.min === 'number' && n < input.min) {
    return { fault: words.unit.low(t, String(input.min)), ask: false };
  }
  if (typeof input.max === 'number' && n > input.max) {
    return { fault: words.unit.high(t, String(input.max)), ask: false };
  }
  if (!/^\d+$/.test(t)) return { fault: words.unit.digits(t, String(n)), ask: false };
  return { si: n };
}
