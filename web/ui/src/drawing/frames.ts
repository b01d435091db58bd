// The blow between its frames.
import type { Playback } from '../api/types';
import { extent, valueAt } from './plot';

export interface Shape {
  time: number; // s
  pressure: number; // Pa(g)
  z: number[]; // depth below the ledge, m, from the gate to the ledge
  r: number[];
  wall: number[];
  tip: number | null; // of the rod, depth below the ledge, m
}

/** The first and the last time of a blow. */
export function span(p: Playback): [from: number, to: number] {
  const frames = p.frames ?? [];
  return [frames[0]?.time ?? 0, frames.at(-1)?.time ?? 0];
}

/** The wall at a time by straight lines between the frames: their nodes move with the material. */
export function shapeAt(p: Playback, time: number): Shape | null {
  const frames = p.frames ?? [];
  const last = frames.at(-1);
  if (!last) return null;
  let i = frames.findIndex((f) => f.time > time) - 1;
  if (i === -2) i = frames.length - 1;
  const a = frames[Math.max(0, i)]!;
  const b = frames[Math.max(0, i) + 1] ?? a;
  const f = b.time > a.time ? Math.min(1, Math.max(0, (time - a.time) / (b.time - a.time))) : 0;
  const mix = (p: readonly number[] | null, q: readonly number[] | null) =>
    (p ?? []).map((v, k) => v + ((q ?? [])[k]! - v) * f);
  const rod = p.rod ?? [];
  const held = Math.min(time, rod.at(-1)?.time ?? time);
  return {
    time,
    pressure: a.pressure + (b.pressure - a.pressure) * f,
    z: mix(a.z, b.z),
    r: mix(a.r, b.r),
    wall: mix(a.wall, b.wall),
    tip: valueAt(
      rod.map((m) => m.time),
      rod.map((m) => m.tip),
      held,
    ),
  };
}

/** The time of the frame before or behind a time. */
export function neighbour(p: Playback, time: number, step: 1 | -1): number {
  const times = (p.frames ?? []).map((f) => f.time);
  const found = step > 0 ? times.find((t) => t > time + 1e-9) : times.findLast((t) => t < time - 1e-9);
  return found ?? (step > 0 ? (times.at(-1) ?? 0) : (times[0] ?? 0));
}

/** Where in the colours a wall of the blow stands, 0 to 1: by its logarithm, for it thins tenfold. */
export const byLogarithm = (wall: number, low: number, high: number): number =>
  Math.min(1, Math.max(0, Math.log(wall / low) / (Math.log(high / low) || 1)));

/** The thinnest and the thickest wall of the whole blow, m. */
export const walls = (p: Playback) => extent((p.frames ?? []).map((f) => f.wall ?? [])) ?? ([0, 1] as const);
