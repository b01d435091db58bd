// The colour of a thickness: from straw (thin) over copper and plum to indigo
// (thick). Lightness falls all the way, so that the order is read without
// colour, too.

type Lab = [l: number, a: number, b: number]; // OKLab

const stops: [at: number, l: number, chroma: number, hue: number][] = [
  [0, 0.9, 0.12, 96],
  [0.25, 0.77, 0.14, 66],
  [0.5, 0.6, 0.15, 28],
  [0.75, 0.43, 0.13, 335],
  [1, 0.29, 0.11, 285],
];

function lab(t: number): Lab {
  const x = Math.min(1, Math.max(0, Number.isFinite(t) ? t : 0));
  let i = 0;
  while (i + 2 < stops.length && x > stops[i + 1]![0]) i++;
  const [a, b] = [stops[i]!, stops[i + 1]!];
  const f = (x - a[0]) / (b[0] - a[0]);
  const polar = (s: typeof a): Lab => {
    const h = (s[3] * Math.PI) / 180;
    return [s[1], s[2] * Math.cos(h), s[2] * Math.sin(h)];
  };
  const [p, q] = [polar(a), polar(b)];
  return [p[0] + f * (q[0] - p[0]), p[1] + f * (q[1] - p[1]), p[2] + f * (q[2] - p[2])];
}

/** The lightness (0 to 1, OKLab) of the ramp at t. */
export const lightness = (t: number): number => lab(t)[0];

/** The colour of the ramp at t from 0 (thin) to 1 (thick), as a CSS colour. */
export function colour(t: number): string {
  const [l, a, b] = lab(t);
  return `oklab(${l.toFixed(4)} ${a.toFixed(4)} ${b.toFixed(4)})`;
}

/** The colour of the ramp at t as linear red, green and blue from 0 to 1, for the solid view. */
export function linear(t: number): [r: number, g: number, b: number] {
  const [L, a, b] = lab(t);
  const l = (L + 0.3963377774 * a + 0.2158037573 * b) ** 3;
  const m = (L - 0.1055613458 * a - 0.0638541728 * b) ** 3;
  const s = (L - 0.0894841775 * a - 1.291485548 * b) ** 3;
  const held = (v: number) => Math.min(1, Math.max(0, v));
  return [
    held(4.0767416621 * l - 3.3077115913 * m + 0.2309699292 * s),
    held(-1.2684380046 * l + 2.6097574011 * m - 0.3413193965 * s),
    held(-0.0041960863 * l - 0.7034186147 * m + 1.707614701 * s),
  ];
}
