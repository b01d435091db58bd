import { describe, expect, it } from 'vitest';
import { before, begin, canRedo, canUndo, present, record, redo, undo } from './history';

const step = (state: string, group: number) => ({ state, label: state, group });

describe('history', () => {
  it('undoes and redoes in order', () => {
    let h = record(record(begin('a'), step('b', 1)), step('c', 2));
    h = undo(h);
    expect(present(h)).toBe('b');
    h = undo(undo(h));
    expect(present(h)).toBe('a');
    expect(canUndo(h)).toBe(false);
    h = redo(redo(h));
    expect(present(h)).toBe('c');
    expect(canRedo(h)).toBe(false);
    expect(redo(h)).toBe(h);
  });

  it('takes the changes of one visit to a field as one step', () => {
    let h = begin('a');
    for (const s of ['a1', 'a2', 'a3']) h = record(h, step(s, 7));
    expect(present(h)).toBe('a3');
    expect(before(h)).toBe('a');
    expect(present(undo(h))).toBe('a');
  });

  it('leaves no step when a visit ends where it began', () => {
    const h = record(record(begin('a'), step('b', 1)), step('a', 1));
    expect(canUndo(h)).toBe(false);
  });

  it('drops what was undone when something new is recorded', () => {
    const h = record(undo(record(begin('a'), step('b', 1))), step('c', 2));
    expect(canRedo(h)).toBe(false);
    expect(present(undo(h))).toBe('a');
  });
});
