// Verdicts in words.
import type { Verdict } from '../api/types';
import { isUpper } from '../drawing/scale';
import { words } from '../words';

/** "≤ 4.50 bar(g)" */
export const limitText = (v: Verdict): string =>
  `${isUpper(v.side) ? words.board.atMost : words.board.atLeast}\u00a0${v.limit_display}`;

/** "+0.21 bar(g) (4.7 %)" is split by the server; the per cent is printed here. */
export const percentText = (percent: number): string =>
  `${percent < 0 ? '\u2212' : '+'}${Math.abs(percent).toFixed(Math.abs(percent) < 10 ? 1 : 0)}\u00a0%`;
