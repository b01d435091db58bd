import { describe, expect, it } from 'vitest';
import type { Verdict } from '../api/types';
import { bandText, limitText, percentText, shortText, verdictText } from './verdicts';

describe('words of a verdict', () => {
  it('write the limit with its side', () => {
    const v = { side: 'max', limit_display: '39 g' } as Verdict;
    expect(limitText(v)).toBe('≤\u00a039 g');
    expect(limitText({ ...v, side: 'min' })).toBe('≥\u00a039 g');
  });

  it('say on which side a close value is outside', () => {
    const v = { verdict: 'close', side: 'max', margin: -0.1 } as Verdict;
    expect(verdictText(v)).toBe('close, over');
    expect(verdictText({ ...v, side: 'min' })).toBe('close, under');
    expect(verdictText({ ...v, margin: 0.1 })).toBe('close');
    expect(verdictText({ ...v, margin: null })).toBe('close');
    expect(verdictText({ ...v, verdict: 'fail' })).toBe('fail');
  });

  it('write the per cent with sign and sensible digits', () => {
    expect(percentText(4.71)).toBe('+4.7\u00a0%');
    expect(percentText(-23.4)).toBe('\u221223\u00a0%');
  });

  it('name a shared unit once', () => {
    expect(bandText('38.39 g', '39.26 g')).toBe('38.39 – 39.26 g');
    expect(bandText('999 g', '1.01 kg')).toBe('999 g – 1.01 kg');
    expect(bandText('2.9', '3.0')).toBe('2.9 – 3.0');
  });
});

it.each([
  ['+0.1733 g', '+0.173 g'],
  ['\u22121.784 points', '\u22121.78 points'],
  ['+17.84 bar', '+17.8 bar'],
  ['+1234 N', '+1234 N'],
  ['+1234.5 N', '+1235 N'],
  ['+0.062 mm', '+0.062 mm'],
  ['\u22120.003827 mm', '\u22120.00383 mm'],
  ['+2.5', '+2.5'],
  ['+0.1513', '+0.151'],
  ['+1.234e7 s', '+1.234e7 s'],
  ['', ''],
])('shortens %s to %s', (long, short) => expect(shortText(long)).toBe(short));
