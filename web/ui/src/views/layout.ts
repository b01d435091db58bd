// Where things stand on the sheet: preform, bottle and chart at one scale and
// on one base line. A narrow sheet goes without the chart before its shapes
// become too small to read.
import type { Geometry } from '../api/types';

export interface Layout {
  scale: number; // px a metre, alike in both directions and for both shapes
  base: number; // y of height zero
  preformAxis: number; // x
  bottleAxis: number; // x
  bottleRadius: number; // px
  chart: boolean; // there is room for it
  chartLeft: number;
  chartRight: number; // without a chart, where the lines of the cut planes end
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
const grips = 56; // in place of bottle to chart and chart, for the grips of the planes
const readable = 0.6; // of the scale without a chart, that the shapes must keep beside one

export function layout(width: number, height: number, g: Geometry): Layout {
  const radius = Math.max(...g.bottle.r, g.bottle.finish_od / 2);
  const preformRadius = Math.max(...(g.preform.ro ?? []), 0);
  const hung = Math.max(0, ...(g.preform.z ?? [])) - g.bottle.ledge_z; // the preform hangs from the bottle's ledge
  const tall = g.bottle.height + Math.max(0, hung);
  const top = frame + above;
  const bottom = height - frame - below;
  const beside = 2 * frame + left + middle;
  const scaled = (fixed: number) =>
    Math.max(1, Math.min((bottom - top) / tall, (width - fixed) / (2 * (radius + preformRadius))));
  const charted = scaled(beside + right + leastChart);
  const bare = scaled(beside + grips);
  const room = charted >= readable * bare;
  const scale = room ? charted : bare;
  const used = beside + (room ? right : grips) + 2 * scale * (radius + preformRadius);
  const chart = room ? Math.min(mostChart, Math.max(leastChart, width - used)) : 0;
  const spare = Math.max(0, width - used - chart) / 4;
  const preformAxis = frame + left + spare + scale * preformRadius;
  const bottleAxis = preformAxis + scale * (preformRadius + radius) + middle + spare;
  const chartLeft = bottleAxis + scale * radius + (room ? right : grips) + spare;
  return {
    scale,
    base: bottom - scale * Math.max(0, hung),
    preformAxis,
    bottleAxis,
    bottleRadius: scale * radius,
    chart: room,
    chartLeft,
    chartRight: chartLeft + chart - 14,
    top,
    bottom,
  };
}
