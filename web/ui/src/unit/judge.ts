// What is wrong with a typed quantity, in words.
import type { ResolvedInput, UnitSystem } from '../api/types';
import { words } from '../words';
import type { Units } from './table';

/** A usable value, or the fault in words; ask is set when the server, which knows more spellings, may see it otherwise. */
export type Judgement = { si: number } | { fault: string; ask: boolean };

export function judge(
  units: Units,
  input: Pick<ResolvedInput, 'quantity' | 'min' | 'max' | 'value'> & { display?: string },
  text: string,
  system: UnitSystem,
): Judgement {
  const kind = input.quantity;
  if (kind === '') return plain(input, text);
  const symbols = units.symbols(kind, system);
  const list = symbols.join(', ');
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
  const show = (si: number) => units.showLike(kind, si, input.display ?? '', system);
  if (typeof input.min === 'number' && parsed.si < input.min) {
    return { fault: words.unit.low(text.trim(), show(input.min)), ask: false };
  }
  if (typeof input.max === 'number' && parsed.si > input.max) {
    return { fault: words.unit.high(text.trim(), show(input.max)), ask: false };
  }
  return { si: parsed.si };
}

/** Words are taken as they are; a whole number is looked at. */
function plain(input: Pick<ResolvedInput, 'min' | 'max' | 'value'>, text: string): Judgement {
  const t = text.trim();
  if (t === '') return { fault: words.unit.emptyWords, ask: false };
  if (typeof input.value !== 'number') return { si: Number.NaN };
  if (!/^\d+$/.test(t)) return { fault: words.unit.whole(t), ask: false };
  const n = Number(t);
  if (typeof input.min === 'number' && n < input.min) {
    return { fault: words.unit.low(t, String(input.min)), ask: false };
  }
  if (typeof input.max === 'number' && n > input.max) {
    return { fault: words.unit.high(t, String(input.max)), ask: false };
  }
  return { si: n };
}
