// Verdicts in words.
import type { Verdict } from '../api/types';
import { isUpper } from '../drawing/scale';
import { words } from '../words';

/** "≤ 4.50 bar(g)" */
export const limitText = (v: Verdict): string =>
  `${isUpper(v.side) ? words.board.atMost : words.board.atLeast}\u00a0${v.limit_display}`;

/** "+4.7 %" */
export const percentText = (percent: number): string =>
  `${percent < 0 ? '\u2212' : '+'}${Math.abs(percent).toFixed(Math.abs(percent) < 10 ? 1 : 0)}\u00a0%`;

/** "38.39 – 39.26 g": the unit stands once when both ends carry the same. */
export function bandText(lo: string, hi: string): string {
  const at = hi.indexOf(' ');
  const unit = at < 0 ? '' : hi.slice(at);
  return `${unit !== '' && lo.endsWith(unit) ? lo.slice(0, -unit.length) : lo} – ${hi}`;
}
