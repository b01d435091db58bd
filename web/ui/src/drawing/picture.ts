import { colour } from './ramp';

// A drawing of the page as a picture. The shapes are painted one by one, for
// the content-security policy lets no drawing pass through an image element.

const sharp = 2; // pixels of the picture for each of the page

/**
 * Paints what an SVG element shows, in the light colours of the page, with a title above, and the names of
 * its lines and a note beneath.
 */
export function paint(
  ...[svg, title, foot, legend, ruler, scale]: Parameters<typeof drawn>
): HTMLCanvasElement {
  const { style } = document.documentElement;
  const [scheme, weight] = [
    style.getPropertyValue('color-scheme'),
    style.getPropertyPriority('color-scheme'),
  ];
  style.setProperty('color-scheme', 'light', 'important'); // a picture is light, whatever the page is
  try {
    return drawn(svg, title, foot, legend, ruler, scale);
  } finally {
    style.setProperty('color-scheme', scheme, weight);
  }
}

/** What the colours of a drawing mean, and their two ends. */
export interface Scale {
  name: string;
  low: string;
  high: string;
}

/** A length of the drawing at its scale. */
export interface Ruler {
  px: number;
  text: string;
  left: number; // px, of its left end in the drawing
}

function drawn(
  svg: SVGSVGElement,
  title: string,
  foot: string,
  legend: Element | null = null,
  ruler: Ruler | null = null,
  scale: Scale | null = null,
): HTMLCanvasElement {
  const box = svg.getBoundingClientRect();
  const canvas = document.createElement('canvas');
  const page = getComputedStyle(svg);
  const [side, row] = [10, 14];
  const bold = `600 15px ${page.fontFamily}`;
  const heads = wrapped(canvas, bold, title, box.width);
  const above = 12 + 18 * heads.length;
  const small = `11px ${page.fontFamily}`;
  const feet = wrapped(canvas, small, foot, box.width);
  const keys = keysOf(canvas, small, legend, box.width);
  const scaled = scale ? wrapped(canvas, small, scale.name, box.width) : [];
  const barred = scale ? row * scaled.length + 26 : 0; // px of the scale of colours
  const keyed = (keys.length > 0 ? 16 * keys.at(-1)!.row + 22 : 0) + barred;
  const below = 12 + keyed + row * feet.length;
  canvas.width = Math.round((box.width + 2 * side) * sharp);
  canvas.height = Math.round((box.height + above + below) * sharp);
  const pen = canvas.getContext('2d')!;
  pen.scale(sharp, sharp);
  const film = getComputedStyle(document.body.querySelector('.traces') ?? document.body).backgroundColor;
  pen.fillStyle = film;
  pen.fillRect(0, 0, canvas.width, canvas.height);
  pen.fillStyle = page.color;
  pen.font = bold;
  heads.forEach((line, i) => pen.fillText(line, side, 20 + 18 * i));
  pen.font = small;
  feet.forEach((line, i) => pen.fillText(line, side, above + box.height + keyed + 6 + row * (i + 1)));
  for (const key of keys) {
    pen.save();
    pen.translate(side + key.x, above + box.height + barred + 6 + 16 * key.row);
    children(pen, key.sample);
    pen.fillStyle = page.color;
    pen.fillText(key.name, key.sample.clientWidth + 5, 10);
    pen.restore();
  }
  if (scale) {
    const at = above + box.height + 6;
    scaled.forEach((line, i) => pen.fillText(line, side, at + row * (i + 1) - 3));
    bar(pen, scale, side, at + row * scaled.length + 2);
  }
  pen.fillStyle = page.color;
  pen.translate(side, above);
  children(pen, svg);
  if (ruler) {
    const [x, y] = [ruler.left, box.height - ruler.left];
    pen.strokeStyle = pen.fillStyle = page.color;
    pen.lineWidth = 1.2;
    pen.stroke(new Path2D(`M${x} ${y - 4}v8M${x + ruler.px} ${y - 4}v8M${x} ${y}h${ruler.px}`));
    pen.fillText(ruler.text, x + ruler.px + 6, y + 4);
  }
  return canvas;
}

/** The colours between the values of their ends, from a place on. */
function bar(pen: CanvasRenderingContext2D, scale: Scale, x: number, y: number): void {
  const [shades, wide, tall] = [36, 4, 12];
  pen.fillText(scale.low, x, y + 10);
  const from = x + pen.measureText(scale.low).width + 6;
  pen.fillText(scale.high, from + shades * wide + 6, y + 10);
  for (let i = 0; i < shades; i++) {
    pen.fillStyle = colour((i + 0.5) / shades);
    pen.fillRect(from + i * wide, y, wide + 0.5, tall);
  }
}

interface Key {
  sample: SVGSVGElement;
  name: string;
  x: number;
  row: number;
}

/** The samples of a legend with their names, set in rows no wider than given. */
function keysOf(canvas: HTMLCanvasElement, font: string, legend: Element | null, width: number): Key[] {
  const pen = canvas.getContext('2d')!;
  pen.font = font;
  const keys: Key[] = [];
  let [x, row] = [0, 0];
  for (const item of legend?.querySelectorAll('li') ?? []) {
    const sample = item.querySelector('svg');
    const name = item.querySelector('span')?.textContent?.trim() ?? '';
    if (!sample) continue;
    const wide = sample.clientWidth + 5 + pen.measureText(name).width + 16;
    if (x > 0 && x + wide > width) [x, row] = [0, row + 1];
    keys.push({ sample, name, x, row });
    x += wide;
  }
  return keys;
}

/** The text in lines that are no wider than given; a word that is wider is parted. */
function wrapped(canvas: HTMLCanvasElement, font: string, text: string, width: number): string[] {
  const pen = canvas.getContext('2d')!;
  pen.font = font;
  const lines: string[] = [];
  const wide = (t: string) => pen.measureText(t).width > width;
  const words = text.split(' ').flatMap((word) => {
    const parts: string[] = [];
    while (wide(word)) {
      let n = word.length - 1;
      while (n > 1 && wide(word.slice(0, n))) n--;
      parts.push(word.slice(0, n));
      word = word.slice(n);
    }
    return word === '' ? parts : [...parts, word];
  });
  for (const word of words) {
    const longer = lines.length > 0 ? `${lines.at(-1)} ${word}` : word;
    if (lines.length > 0 && !wide(longer)) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

function children(pen: CanvasRenderingContext2D, parent: Element): void {
  for (const child of parent.children) {
    if (child instanceof SVGGraphicsElement) shape(pen, child);
  }
}

function shape(pen: CanvasRenderingContext2D, e: SVGGraphicsElement): void {
  const style = getComputedStyle(e);
  if (style.display === 'none' || style.visibility === 'hidden' || e.dataset.picture === 'no') return;
  pen.save();
  for (let i = 0; i < e.transform.baseVal.numberOfItems; i++) {
    const m = e.transform.baseVal.getItem(i).matrix;
    pen.transform(m.a, m.b, m.c, m.d, m.e, m.f);
  }
  const line = outline(e);
  if (line || e instanceof SVGTextElement) {
    const clip = clipOf(e);
    if (clip) pen.clip(clip);
    draw(pen, e, line, style);
  } else {
    const clip = clipOf(e);
    if (clip) pen.clip(clip);
    children(pen, e);
  }
  pen.restore();
}

/** The rectangle that clips an element, when one is named. */
function clipOf(e: Element): Path2D | null {
  const named = /url\(#(.+)\)/.exec(e.getAttribute('clip-path') ?? '')?.[1];
  const rect = named && document.getElementById(named)?.querySelector('rect');
  return rect ? outline(rect) : null;
}

function draw(
  pen: CanvasRenderingContext2D,
  e: SVGGraphicsElement,
  line: Path2D | null,
  style: CSSStyleDeclaration,
): void {
  const alpha = Number(style.opacity);
  const [fill, stroke] = [style.fill, style.stroke];
  pen.lineWidth = parseFloat(style.strokeWidth) || 1;
  pen.lineJoin = 'round';
  pen.setLineDash(
    style.strokeDasharray === 'none' ? [] : style.strokeDasharray.split(/[ ,]+/).map(parseFloat),
  );
  if (line) {
    if (fill.startsWith('url')) {
      pen.globalAlpha = alpha;
      pen.fillStyle = hatch(pen, fill) ?? 'transparent';
      pen.fill(line);
    } else if (fill !== 'none') {
      pen.globalAlpha = alpha * Number(style.fillOpacity);
      pen.fillStyle = fill;
      pen.fill(line);
    }
    if (stroke !== 'none') {
      pen.globalAlpha = alpha * Number(style.strokeOpacity);
      pen.strokeStyle = stroke;
      pen.stroke(line);
    }
    return;
  }
  pen.globalAlpha = alpha;
  pen.font = `${style.fontWeight} ${style.fontSize} ${style.fontFamily}`;
  pen.textAlign = style.textAnchor === 'middle' ? 'center' : style.textAnchor === 'end' ? 'right' : 'left';
  const [x, y] = [Number(e.getAttribute('x') ?? 0), Number(e.getAttribute('y') ?? 0)];
  const text = e.textContent.trim().replace(/\s+/g, ' ');
  if (stroke !== 'none') {
    pen.strokeStyle = stroke;
    pen.strokeText(text, x, y);
  }
  pen.fillStyle = fill;
  pen.fillText(text, x, y);
}

/** The hatching of the page that a fill names. */
function hatch(pen: CanvasRenderingContext2D, fill: string): CanvasPattern | null {
  const named = document.getElementById(/#([\w-]+)/.exec(fill)?.[1] ?? '');
  const line = named?.querySelector('line');
  if (!line) return null;
  const style = getComputedStyle(line);
  const tile = document.createElement('canvas');
  const step = Number(named!.getAttribute('width')) || 5;
  tile.width = tile.height = step * sharp;
  const inner = tile.getContext('2d')!;
  inner.strokeStyle = style.stroke;
  inner.lineWidth = (parseFloat(style.strokeWidth) || 1) * sharp;
  inner.beginPath();
  inner.moveTo(0, 0);
  inner.lineTo(0, step * sharp);
  inner.stroke();
  const pattern = pen.createPattern(tile, 'repeat');
  const turn = Number(/rotate\((-?\d+)/.exec(named!.getAttribute('patternTransform') ?? '')?.[1] ?? 0);
  pattern?.setTransform(new DOMMatrix().rotate(turn).scale(1 / sharp));
  return pattern;
}

function outline(e: SVGGraphicsElement): Path2D | null {
  const get = (name: string) => Number(e.getAttribute(name) ?? 0);
  const p = new Path2D();
  if (e instanceof SVGPathElement) return new Path2D(e.getAttribute('d') ?? '');
  if (e instanceof SVGLineElement) {
    p.moveTo(get('x1'), get('y1'));
    p.lineTo(get('x2'), get('y2'));
  } else if (e instanceof SVGRectElement) p.rect(get('x'), get('y'), get('width'), get('height'));
  else if (e instanceof SVGCircleElement) p.arc(get('cx'), get('cy'), get('r'), 0, 2 * Math.PI);
  else return null;
  return p;
}

/** Puts the picture on the clipboard; where that is not allowed it is handed over as a file. */
export async function hand(canvas: HTMLCanvasElement, file: string): Promise<'copied' | 'saved'> {
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
  if (!blob) throw new Error('the browser made no picture');
  try {
    await navigator.clipboard.write([new ClipboardItem({ 'image/png': blob })]);
    return 'copied';
  } catch {
    download(blob, file);
    return 'saved';
  }
}

/** Hands a file to the reader. */
export function download(content: Blob | string, file: string): void {
  const blob =
    typeof content === 'string' ? new Blob([content], { type: 'text/csv;charset=utf-8' }) : content;
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = file;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}
