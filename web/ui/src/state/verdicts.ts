// Verdicts in words.
import type { Verdict } from '../api/types';
import { isUpper } from '../drawing/scale';
import { words } from '../words';

/** "≤ 4.50 bar(g)" */
export const limitText = (v: Verdict): string =>
  `${isUpper(v.side) ? words.board.atMost : words.board.atLeast}\u00a0${v.limit_display}`;

/** The word of a verdict; a close one whose value itself is outside its limit says on which side. */
export function verdictText(v: Pick<Verdict, 'verdict' | 'side' | 'margin'>): string {
  const word = words.board.verdict[v.verdict] ?? v.verdict;
  if (v.verdict !== 'close' || v.margin === null || v.margin >= 0) return word;
  return words.board.beside(word, isUpper(v.side) ? words.board.over : words.board.under);
}

/** "+4.7 %"; what rounds to nothing is "< 0.1 %". */
export const percentText = (percent: number): string =>
  Math.abs(percent) < 0.05
    ? '< 0.1\u00a0%'
    : `${percent < 0 ? '\u2212' : '+'}${Math.abs(percent).toFixed(Math.abs(percent) < 10 ? 1 : 0)}\u00a0%`;

/** "38.39 – 39.26 g": the unit stands once when both ends carry the same. */
export function bandText(lo: string, hi: string): string {
  const at = hi.indexOf(' ');
  const unit = at < 0 ? '' : hi.slice(at);
  return `${unit !== '' && lo.endsWith(unit) ? lo.slice(0, -unit.length) : lo} – ${hi}`;
}

/** A difference with three significant digits: "+0.1733 g" as "+0.173 g". Whole numbers stay as they are. */
export function shortText(display: string): string {
  const match = /^([+\u2212-]?)(\d+)\.(\d+)(?![\de])(.*)$/.exec(display);
  if (!match) return display;
  const [, sign, whole, part, rest] = match as unknown as [string, string, string, string, string];
  const decimals = Number(whole) > 0 ? Math.max(0, 3 - whole.length) : /^0*/.exec(part)![0].length + 3;
  return decimals >= part.length ? display : `${sign}${Number(`${whole}.${part}`).toFixed(decimals)}${rest}`;
}
