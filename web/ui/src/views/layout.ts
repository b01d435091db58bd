// Where things stand on the sheet: preform, bottle and chart at one scale and
// on one base line.
import type { Geometry } from '../api/types';

export interface Layout {
  scale: number; // px a metre, alike in both directions and for both shapes
  base: number; // y of height zero
  preformAxis: number; // x
  bottleAxis: number; // x
  bottleRadius: number; // px
  chartLeft: number;
  chartRight: number;
  top: number;
  bottom: number;
}

export const frame = 15; // px from the sheet's edge to the frame line
const above = 34; // room over the shapes for the bore
const below = 54; // room under them for the diameters and captions
const left = 62; // beside the preform for its length
const middle = 136; // between preform and bottle for heights and sections
const right = 78; // between bottle and chart for the height axis
const leastChart = 110;
const mostChart = 340;

export function layout(width: number, height: number, g: Geometry): Layout {
  const radius = Math.max(...g.bottle.r, g.bottle.finish_od / 2);
  const preformRadius = Math.max(...(g.preform.ro ?? []), 0);
  const hung = Math.max(0, ...(g.preform.z ?? [])) - g.bottle.ledge_z; // the preform hangs from the bottle's ledge
  const tall = g.bottle.height + Math.max(0, hung);
  const top = frame + above;
  const bottom = height - frame - below;
  const fixed = 2 * frame + left + middle + right;
  const scale = Math.max(
    1,
    Math.min((bottom - top) / tall, (width - fixed - leastChart) / (2 * (radius + preformRadius))),
  );
  const used = fixed + 2 * scale * (radius + preformRadius);
  const chart = Math.min(mostChart, Math.max(leastChart, width - used));
  const spare = Math.max(0, width - used - chart) / 4;
  const preformAxis = frame + left + spare + scale * preformRadius;
  const bottleAxis = preformAxis + scale * (preformRadius + radius) + middle + spare;
  const chartLeft = bottleAxis + scale * radius + right + spare;
  return {
    scale,
    base: bottom - scale * Math.max(0, hung),
    preformAxis,
    bottleAxis,
    bottleRadius: scale * radius,
    chartLeft,
    chartRight: chartLeft + chart - 14,
    top,
    bottom,
  };
}
