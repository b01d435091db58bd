// The bottle as a solid: a turned body with a wedge cut out, coloured by its wall.
import {
  BufferAttribute,
  BufferGeometry,
  Color,
  DirectionalLight,
  DoubleSide,
  HemisphereLight,
  LatheGeometry,
  Mesh,
  MeshLambertMaterial,
  PerspectiveCamera,
  Scene,
  Vector2,
  WebGLRenderer,
} from 'three';
import type { Point } from '../drawing/outline';
import { linear } from '../drawing/ramp';

export interface Body {
  outer: Point[]; // radius and height, m, from the gate up
  inner: Point[];
  tone: number[]; // 0 thin to 1 thick, one a point
  neck: { r: number; from: number; to: number } | null;
}

/** A wavy surface about the axis: each node of a meridian moves with the waves. */
export interface Waves {
  line: Point[]; // radius and height of the meridian, m
  out: number[]; // shares of the amplitude, times cos nθ
  up: number[];
  round: number[]; // times sin nθ
  n: number;
  amplitude: number; // m
  neck: Body['neck']; // drawn still
}

export interface View {
  turn: number; // degrees
  tilt: number;
  near: number; // 1 is the whole body
}

const round = 96; // facets of a full turn
const open = 0.25; // share of the turn that is cut out

export class Solid {
  private readonly renderer: WebGLRenderer;
  private readonly scene = new Scene();
  private readonly camera = new PerspectiveCamera(28, 1, 0.01, 10);
  private readonly material = new MeshLambertMaterial({ vertexColors: true, side: DoubleSide });
  private readonly plain = new MeshLambertMaterial({ color: new Color(0.45, 0.5, 0.52), side: DoubleSide });
  private parts: Mesh[] = [];
  private middle = 0;
  private tall = 0.3;

  /** Throws when the browser has no 3-D drawing. */
  constructor(canvas: HTMLCanvasElement) {
    this.renderer = new WebGLRenderer({ canvas, alpha: true, antialias: true });
    this.scene.add(new HemisphereLight(0xffffff, 0x8a97a0, 2.2));
    const lamp = new DirectionalLight(0xffffff, 1.4);
    lamp.position.set(1, 1.5, 2);
    this.scene.add(lamp);
  }

  shape(body: Body): void {
    this.clear();
    const turned = (line: readonly Point[], tone: readonly number[]): Mesh => {
      const points = line.map((p) => new Vector2(Math.max(0, p.r), p.z));
      const geometry = new LatheGeometry(points, round * (1 - open), 0, 2 * Math.PI * (1 - open));
      const count = geometry.getAttribute('position').count;
      const colours = new Float32Array(count * 3);
      const own = tone.map(linear);
      for (let i = 0; i < count; i++) colours.set(own[i % line.length] ?? [0.5, 0.5, 0.5], 3 * i);
      geometry.setAttribute('color', new BufferAttribute(colours, 3));
      return new Mesh(geometry, this.material);
    };
    const { neck } = body;
    this.parts = [
      turned(body.outer, body.tone),
      turned(body.inner, body.tone),
      ...(neck ? [this.finish(neck, 1 - open)] : []),
    ];
    this.place([...body.outer.map((p) => p.z), ...(neck ? [neck.to] : [])]);
  }

  /** The surface of a mode, coloured from inward (0) to outward (1). */
  waves(w: Waves): void {
    this.clear();
    const [rows, columns] = [w.line.length, Math.max(96, 12 * w.n) + 1];
    const position = new Float32Array(3 * rows * columns);
    const tint = new Float32Array(3 * rows * columns);
    for (let i = 0; i < rows; i++) {
      const p = w.line[i]!;
      for (let k = 0; k < columns; k++) {
        const angle = (2 * Math.PI * k) / (columns - 1);
        const [c, s] = [Math.cos(w.n * angle), Math.sin(w.n * angle)];
        const r = p.r + w.amplitude * (w.out[i] ?? 0) * c;
        const side = w.amplitude * (w.round[i] ?? 0) * s;
        const at = 3 * (i * columns + k);
        position[at] = r * Math.sin(angle) + side * Math.cos(angle);
        position[at + 1] = p.z + w.amplitude * (w.up[i] ?? 0) * c;
        position[at + 2] = r * Math.cos(angle) - side * Math.sin(angle);
        tint.set(linear(0.5 + 0.5 * (w.out[i] ?? 0) * c), at);
      }
    }
    const index: number[] = [];
    for (let i = 0; i + 1 < rows; i++) {
      for (let k = 0; k + 1 < columns; k++) {
        const a = i * columns + k;
        index.push(a, a + 1, a + columns, a + columns, a + 1, a + columns + 1);
      }
    }
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(position, 3));
    geometry.setAttribute('color', new BufferAttribute(tint, 3));
    geometry.setIndex(index);
    geometry.computeVertexNormals();
    this.parts = [new Mesh(geometry, this.material), ...(w.neck ? [this.finish(w.neck, 1)] : [])];
    this.place([...w.line.map((p) => p.z), ...(w.neck ? [w.neck.to] : [])]);
  }

  /** The finish as a plain tube, over a share of the turn. */
  private finish(neck: NonNullable<Body['neck']>, share: number): Mesh {
    const line = [new Vector2(neck.r, neck.from), new Vector2(neck.r, neck.to)];
    return new Mesh(new LatheGeometry(line, round * share, 0, 2 * Math.PI * share), this.plain);
  }

  private clear(): void {
    for (const part of this.parts) {
      this.scene.remove(part);
      part.geometry.dispose();
    }
    this.parts = [];
  }

  /** Shows the parts and looks at their middle. */
  private place(heights: readonly number[]): void {
    for (const part of this.parts) this.scene.add(part);
    const [lo, hi] = [Math.min(...heights), Math.max(...heights)];
    this.middle = (lo + hi) / 2;
    this.tall = hi - lo || 0.3;
  }

  draw(view: View, width: number, height: number): void {
    this.renderer.setPixelRatio(Math.min(2, devicePixelRatio));
    this.renderer.setSize(width, height, false);
    const away = (1.25 * this.tall) / (2 * Math.tan((14 * Math.PI) / 180)) / view.near;
    const [turn, tilt] = [(view.turn * Math.PI) / 180, (view.tilt * Math.PI) / 180];
    this.camera.aspect = width / height;
    this.camera.position.set(
      away * Math.cos(tilt) * Math.sin(turn),
      this.middle + away * Math.sin(tilt),
      away * Math.cos(tilt) * Math.cos(turn),
    );
    this.camera.lookAt(0, this.middle, 0);
    this.camera.updateProjectionMatrix();
    this.renderer.render(this.scene, this.camera);
  }

  dispose(): void {
    for (const part of this.parts) part.geometry.dispose();
    this.material.dispose();
    this.plain.dispose();
    this.renderer.dispose();
  }
}
