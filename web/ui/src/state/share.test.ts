import { expect, it } from 'vitest';
import { share } from './share';

it('keeps what is the same and takes what is new', () => {
  const old = { a: { x: [1, 2, 3] }, b: [{ k: 1 }, { k: 2 }], c: 'text' };
  const now = { a: { x: [1, 2, 3] }, b: [{ k: 1 }, { k: 3 }], c: 'text' };
  const got = share(old, now);
  expect(got).toEqual({ a: { x: [1, 2, 3] }, b: [{ k: 1 }, { k: 3 }], c: 'text' });
  expect(got.a).toBe(old.a);
  expect(got.b[0]).toBe(old.b[0]);
  expect(got.b[1]).not.toBe(old.b[1]);
  expect(got.b).not.toBe(old.b);
});

it('gives back the old value when nothing differs', () => {
  const old = {
    list: [
      [1, null],
      [2, 'x'],
    ],
    none: null,
  };
  expect(share(old, structuredClone(old))).toBe(old);
});

it('does not mistake a missing, an added or an empty part for the same', () => {
  expect(share({ a: 1, b: 2 }, { a: 1 })).toEqual({ a: 1 });
  expect(share({ a: 1 }, { a: 1, b: undefined })).toEqual({ a: 1, b: undefined });
  expect(share([1, 2, 3], [1, 2])).toEqual([1, 2]);
  expect(share([], {})).toEqual({});
  expect(share({ a: 0 }, { a: -0 })).toEqual({ a: -0 });
  expect(share(null, { a: 1 })).toEqual({ a: 1 });
});
