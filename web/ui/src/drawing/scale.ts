// Scales of the drawing and of the board.

/** Round steps for an axis: about n of them between 0 and top. */
export function ticks(top: number, n: number): number[] {
  if (!(top > 0) || n < 1) return [0];
  const rough = top / n;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((m) => m * power).find((s) => s >= rough * 0.999)!;
  const out: number[] = [];
  for (let i = 0; i * step <= top * (1 + 1e-9); i++) out.push(i * step);
  return out;
}

/**
 * Where a chart of wall against height ends. The wall near the neck and the
 * gate is several times that of the body: the chart ends at two and a half
 * medians and says what lies beyond, so that the body stays readable.
 */
export function wallTop(wall: readonly number[]): number {
  const sorted = [...wall].filter(Number.isFinite).sort((a, b) => a - b);
  if (sorted.length === 0) return 0;
  const median = sorted[Math.floor(sorted.length / 2)]!;
  return Math.min(sorted.at(-1)! * 1.08, median * 2.5);
}

/** The scale of the margins: even near the limit, drawn together far from it. */
const bend = 8; // per cent at which the drawing together begins
const least = -25;
const most = 400;
const along = (percent: number) => Math.sign(percent) * Math.log1p(Math.abs(percent) / bend);

export const marginTicks = [-20, 0, 10, 30, 100, 300];

/** A margin in per cent of the limit as a place from 0 to 1; beyond the ends it stays at the end. */
export function marginPlace(percent: number): number {
  const clipped = Math.min(most, Math.max(least, percent));
  return (along(clipped) - along(least)) / (along(most) - along(least));
}

export const marginBeyond = (percent: number) => percent < least || percent > most;

export const isUpper = (side: string) => side === 'max';

/** The margin of a value to a limit in per cent of the limit; null when the limit is zero. */
export function marginPercent(value: number, limit: number, side: string): number | null {
  if (limit === 0 || !Number.isFinite(value)) return null;
  return ((isUpper(side) ? limit - value : value - limit) / Math.abs(limit)) * 100;
}
