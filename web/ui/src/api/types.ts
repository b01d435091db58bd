// What the server answers, as the page reads it. Every number is SI. What is
// not written out here is taken from schema.d.ts, which "npm run types" makes
// from the server's own description.
import type { components } from './schema';

type Schemas = components['schemas'];

export type Plot = Schemas['Plot'];
export type Axis = Schemas['Axis'];
export type Absent = Schemas['Absent'];
export type Series = Schemas['Series'];
export type FieldMap = Schemas['Map'];
export type Playback = Schemas['Playback'];
export type Progress = Schemas['Progress'];
export type DataCard = Schemas['DataCard'];
export type Difference = Schemas['Difference'];
export type CompareRequest = Schemas['CompareInBody'];
export type Failed = Schemas['Failed'];
export type Buckling = Schemas['Buckling'];
export type RunInfo = Schemas['RunInfo'];
export type Imported = Schemas['Imported'];
export type TableRead = Schemas['TableRead'];
export type UnitAsk = Schemas['UnitAsk'];
export type Reshaped = Schemas['Reshaped'];

export type UnitBase = 'eu' | 'us';
/** See unit/system.ts. */
export type UnitSystem = UnitBase | `${UnitBase},${string}`;

export interface UnitEntry {
  symbol: string;
  aliases?: string[] | null;
  scale: number; // SI = value * scale + offset
  offset: number;
}

export interface UnitKind {
  kind: string;
  si: string;
  eu: string;
  us: string;
  units: UnitEntry[];
}

/** A quantity for which a unit may be chosen, and the units in which its family is then shown. */
export interface UnitPreference {
  key: string;
  kind: string;
  choices: { unit: string; shows: Record<string, string> }[] | null;
}

export interface UnitTable {
  kinds: UnitKind[];
  preferences?: UnitPreference[] | null;
  used?: string[] | null; // keys of those that a design or a figure has
}

export interface DesignEntry {
  name: string;
  title: string;
  modified: string;
  version: string;
  fault?: string; // why the file is not usable
}

export interface DesignList {
  designs: DesignEntry[] | null;
}

export type InputOrigin = 'given' | 'default' | 'assumed';

export interface ResolvedInput {
  path: string;
  label: string;
  doc?: string; // what it means
  quantity: string; // kind of quantity; empty for words, switches and whole numbers
  unit: string;
  value: number | string | boolean | null;
  display: string;
  text: string; // as written in the file; empty when not written
  origin: InputOrigin;
  min?: number | null;
  max?: number | null;
  choices?: string[] | null;
  source?: string;
  section: string;
  table?: InputTable;
}

/** A list or table in the units of the reader; a header carries the unit of its column. */
export interface InputTable {
  columns: string[];
  rows: string[][];
}

export interface Problem {
  path: string;
  line: number;
  column: number;
  text: string; // the offending text
  excerpt?: string;
  message: string;
  expected?: string;
}

export interface DesignFile {
  name: string;
  version: string;
  text: string;
  resolved: ResolvedInput[] | null;
  problems: Problem[] | null;
}

export interface FigureInput {
  key: string; // of another figure, or "design:" and a path in the design
  symbol: string;
  label: string;
  value: number;
  display: string;
  kind: string;
  source?: string;
}

export interface Narrow {
  path: string;
  label: string;
  display: string; // what the figure moves when the input moves to the ends of its range
  basis: string;
}

export interface FigureOrigin {
  kind: string;
  method: string;
  equation?: string;
  substituted?: string;
  sources: string[] | null; // keys
  references?: string[] | null; // the same in full
  inputs: FigureInput[] | null;
  warnings: string[] | null;
  valid?: string; // where the method holds
  theory?: string;
  narrow?: Narrow[] | null; // largest first
  left_out?: boolean; // only the kind is here: ask for the rest
}

export interface Figure {
  key: string;
  stage: string; // of the computation that made it
  quantity: string; // kind of quantity
  label: string;
  definition?: string;
  value: number;
  unit_si: string;
  display: string;
  lo: number;
  hi: number;
  lo_display: string;
  hi_display: string;
  origin: FigureOrigin;
}

export interface Verdict {
  figure: string;
  label: string;
  limit: number;
  limit_display: string;
  side: 'max' | 'min';
  verdict: string;
  margin: number | null; // null when the figure could not be computed
  margin_display: string; // empty likewise
  margin_percent: number | null; // null also where per cent says nothing
  owner: string;
  source: string;
  reason?: string;
}

export interface LeftOut {
  key: string;
  stage?: string;
  label?: string;
  reason: string;
  path?: string;
}

export interface Board {
  design: { name: string; class: string; file?: string; units: string };
  figures: Figure[] | null;
  verdicts: Verdict[] | null;
  problems: LeftOut[] | null;
  note?: string;
}

export interface Plane {
  z: number;
  label: string;
}

/** What is drawn; metres. */
export interface Geometry {
  bottle: Bottle;
  preform: Preform;
  zones: { name: string; from: number; to: number; grams: number }[] | null;
  buckling?: Buckling; // of full runs
}

/** The half-section of the preform from the ledge down to the gate; ri is 0 in the floor. Null when it could not be computed. */
export interface Preform {
  z: number[] | null; // downward from the ledge
  ro: number[] | null;
  ri: number[] | null;
}

/** The half-section of the bottle from the gate up to the ledge. */
export interface Bottle {
  s: number[]; // arc length from the gate
  z: number[];
  r: number[]; // outer face
  zi: number[];
  ri: number[]; // inner face
  wall: number[]; // empty when it could not be computed
  planes: Plane[] | null;
  panel: number[]; // from, to
  fill_z: number;
  height: number;
  ledge_z: number;
  bore: { r: number; height: number };
  finish_od: number;
}

export interface Caution {
  key: string;
  title: string;
  text: string;
  trigger: string;
  path: string;
}

export interface CheckAnswer {
  text: string;
  resolved: ResolvedInput[] | null;
  board?: Board | null; // missing when the document has faults
  geometry?: Geometry | null;
  stages: Record<string, string> | null; // of the figures that have a limit
  plots: Plot[] | null;
  maps: FieldMap[] | null;
  absent: Absent[] | null; // fields along the wall that are not among the plots, and why
  playback?: Playback | null; // after a full run in which the blow came to an end
  full: boolean; // every solver ran; otherwise the wall is a preview
  blown: boolean; // the wall is that of the blow
  blow_kept?: boolean; // a full run of this text takes a blow that was computed before
  problems: Problem[] | null; // faults when the board is missing, remarks when it is there
  cautions: Caution[] | null;
}

export interface Edit {
  path: string;
  text: string; // empty: take the entry out, the default holds again
}

export interface CheckRequest {
  name?: string;
  text: string;
  edits: Edit[];
  units: UnitSystem;
  brief?: boolean; // leave out how each figure came about
  why?: string; // but not of this one
}

export interface Saved {
  version: string;
}

export interface Conflict {
  message: string;
  text: string; // as it stands on disk
  version: string;
}

export interface Source {
  key: string;
  authors: string;
  title: string;
  where: string;
  year: string;
  read: string; // what of it was read
  note?: string;
}

export interface PublishedCheck {
  id: string;
  case: string;
  source: string;
  reference: string;
  unit: string;
  ours_text: string;
  published_text: string;
  allowed_text: string;
  relative: boolean;
  ok: boolean;
  mark: string;
  note?: string;
  known?: string; // the reason of a known failure
}
