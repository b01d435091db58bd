// How the numbers of the board differ from those of the baseline, in words.
import type { Difference, Verdict } from '../api/types';
import { words } from '../words';
import { percentText, shortText } from './verdicts';

export interface Delta {
  text: string; // '' without a baseline
  why: string; // why no difference is counted, and what to do; '' where one is
}

const limitOf = (v: { figure: string; side: string; owner: string }) => `${v.figure} ${v.side} ${v.owner}`;

/** The difference of a figure, and of its margin to a limit. */
export function deltas(difference: Difference | null): (key: string, limit?: Verdict) => Delta {
  if (!difference) return () => ({ text: '', why: '' });
  const moved = new Map((difference.figures ?? []).map((f) => [f.key, f]));
  const paid = new Map((difference.margins ?? []).map((m) => [limitOf(m), m]));
  return (key, limit) => {
    const f = moved.get(key);
    const m = limit && paid.get(limitOf(limit));
    const none = f?.unlike ? f : m?.unlike ? m : null;
    if (none) return { text: words.compare.unlike(none.unlike_mark ?? ''), why: none.unlike ?? '' };
    const parts: string[] = [];
    if (f?.change_display)
      parts.push(`${shortText(f.change_display)}${f.percent ? ` (${percentText(f.percent)})` : ''}`);
    else if (f) parts.push(`${f.old} → ${f.new}`);
    if (m?.lost_display) parts.push(`${words.compare.margin} ${shortText(m.lost_display)}`);
    return { text: parts.length > 0 ? parts.join(', ') : words.compare.same, why: '' };
  };
}
