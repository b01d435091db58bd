// The answers that types.ts writes out, held against the server's description:
// a field that the server does not send, or sends as another kind, stops "npm run check".
import type { components } from './schema';
import type * as page from './types';

type Schemas = components['schemas'];

/** The kind of a value without the choice of words that the page narrows it to. */
type Kind<T> = T extends string ? string : T extends number ? number : T extends boolean ? boolean : 'part';

/** Fields of the page's type that the description lacks or has as another kind. */
type Amiss<Page, Server> = {
  [K in keyof Page]-?: K extends keyof Server
    ? unknown extends Server[K] // any value
      ? never
      : Kind<NonNullable<Page[K]>> extends Kind<NonNullable<Server[K]>>
        ? never
        : K
    : K;
}[keyof Page];

type Hold<List extends Record<keyof List, never>> = List;

export type Held = Hold<{
  unit: Amiss<page.UnitEntry, Schemas['Unit']>;
  kind: Amiss<page.UnitKind, Schemas['KindInfo']>;
  listing: Amiss<page.DesignEntry, Schemas['Listing']>;
  input: Amiss<page.ResolvedInput, Schemas['Listed']>;
  table: Amiss<page.InputTable, Schemas['ListedTable']>;
  fault: Amiss<page.Problem, Schemas['Fault']>;
  opened: Amiss<page.DesignFile, Schemas['Opened']>;
  figureInput: Amiss<page.FigureInput, Schemas['Input']>;
  effect: Amiss<page.Narrow, Schemas['Effect']>;
  origin: Amiss<page.FigureOrigin, Schemas['Origin']>;
  figure: Amiss<page.Figure, Schemas['Figure']>;
  verdict: Amiss<page.Verdict, Schemas['Verdict']>;
  leftOut: Amiss<page.LeftOut, Schemas['Problem']>;
  board: Amiss<page.Board, Schemas['Board']>;
  plane: Amiss<page.Plane, Schemas['Plane']>;
  geometry: Amiss<page.Geometry, Schemas['Geometry']>;
  preform: Amiss<page.Preform, Schemas['PreformDrawing']>;
  bottle: Amiss<page.Bottle, Schemas['BottleDrawing']>;
  caution: Amiss<page.Caution, Schemas['Caution']>;
  checked: Amiss<page.CheckAnswer, Schemas['Checked']>;
  edit: Amiss<page.Edit, Schemas['Edit']>;
  request: Amiss<page.CheckRequest, Schemas['CheckInBody']>;
  saved: Amiss<page.Saved, Schemas['Saved']>;
  source: Amiss<page.Source, Schemas['Source']>;
  row: Amiss<page.PublishedCheck, Schemas['Row']>;
}>;
