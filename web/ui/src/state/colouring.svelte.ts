// What the wall is coloured by, alike in the section and in the solid: its thickness, or a field along it,
// that of the stop of the life until the reader chooses another.
import type { Absent, Geometry, UnitSystem } from '../api/types';
import { fieldOf, type Along } from '../drawing/along';
import { lengths } from '../drawing/lengths';
import { unitOf, withUnit } from '../drawing/plot';
import { wallTop } from '../drawing/scale';
import { significant, type Units } from '../unit/table';
import { words } from '../words';

export interface Ramp {
  unit: string;
  low: string;
  high: string;
  most: string; // what the scale leaves beyond its end, with unit; '' for nothing
  old: boolean; // from the last full run, before the changes since
}

interface Of {
  geometry: Geometry | null;
  fields: readonly Along[]; // that the wall can be coloured by
  absent: readonly Absent[]; // fields that are not there, and why
  stage: string;
  units: Units;
  system: UnitSystem;
}

export class Colouring {
  private picked = $state.raw<{ stage: string; key: string } | null>(null);

  constructor(private readonly of: () => Of) {}

  private readonly bottle = $derived.by(() => {
    const b = this.of().geometry?.bottle;
    return b && b.z.length > 1 && b.wall.length > 0 ? b : null;
  });
  private readonly own = $derived.by(() => fieldOf(this.of().stage, this.of().fields, this.of().absent));
  private readonly key = $derived.by(() =>
    this.picked?.stage === this.of().stage ? this.picked.key : this.own.key,
  );
  /** The field that gives the colour; null is the thickness. */
  readonly field = $derived.by(() => this.of().fields.find((f) => f.key === this.key) ?? null);
  /** The field of the stop, when it is not there: why. */
  readonly missing = $derived.by(() => (this.picked?.stage === this.of().stage ? '' : this.own.missing));
  /** Of the thickness: where the colours begin and end, m. */
  readonly thin = $derived.by(() => Math.min(...(this.bottle?.wall ?? [0])));
  readonly top = $derived.by(() => wallTop(this.bottle?.wall ?? []));

  /** Where in the colours each point of the wall stands, 0 to 1. */
  readonly tones = $derived.by((): number[] => {
    const { bottle: b, field, thin, top } = this;
    if (!b) return [];
    if (!field) return b.wall.map((w) => (top > thin ? (w - thin) / (top - thin) : 0.5));
    const [lo, hi] = field.range;
    return b.s.map((s) => ((field.at(s) ?? lo) - lo) / (hi - lo || 1));
  });

  /** What the ends of the colours stand for. */
  readonly ramp = $derived.by((): Ramp | null => {
    const { bottle: b, field, thin, top } = this;
    if (!b) return null;
    const { units, system } = this.of();
    const show = lengths(units, system);
    if (!field) {
      const thick = Math.max(...b.wall);
      const beyond = thick > top;
      return {
        unit: show.wallUnit,
        low: show.wallText(thin),
        high: show.wallText(top) + (beyond ? '+' : ''),
        most: beyond ? `${show.wallText(thick)} ${show.wallUnit}` : '',
        old: false,
      };
    }
    const unit = unitOf(field.axis);
    const text = (v: number) => significant(units.convert(field.axis.quantity, v, unit), 3);
    return {
      unit,
      low: text(field.range[0]),
      high: text(field.range[1]) + (field.beyond ? '+' : ''),
      most: field.beyond ? `${text(field.most)} ${unit}`.trim() : '',
      old: field.stale,
    };
  });

  get fields(): readonly Along[] {
    return this.of().fields;
  }
  get name(): string {
    return this.field?.name ?? words.sheet.wallAxis;
  }

  choose(key: string): void {
    this.picked = { stage: this.of().stage, key };
  }

  /** What the field says at an arc from the gate; '' for the thickness, which is read anyway. */
  said(s: number): string {
    const value = this.field?.at(s) ?? null;
    if (!this.field || value === null) return '';
    const { axis, line } = this.field;
    const unit = unitOf(axis);
    return `${line === '' ? axis.label : line} ${withUnit(this.of().units.convert(axis.quantity, value, unit), unit)}`;
  }
}
