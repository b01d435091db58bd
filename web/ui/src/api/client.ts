// The page's one door to the server.
import type {
  CheckAnswer,
  CheckRequest,
  CompareRequest,
  Conflict,
  DataCard,
  DesignFile,
  DesignList,
  Difference,
  Figure,
  Imported,
  InputTable,
  PublishedCheck,
  Reshaped,
  Saved,
  Source,
  TableRead,
  UnitSystem,
  UnitTable,
} from './types';

/** No answer at all: the server is not there. */
export class Offline extends Error {}

/** The server answered that it could not. */
export class Refused extends Error {
  constructor(
    readonly status: number,
    message: string,
  ) {
    super(message);
  }
}

export async function ask(path: string, init: RequestInit): Promise<Response> {
  try {
    return await fetch(`api/${path}`, { ...init, headers: { 'Content-Type': 'application/json' } });
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') throw error;
    throw new Offline(String(error));
  }
}

export async function json<T>(path: string, init: RequestInit = {}): Promise<T> {
  const response = await ask(path, init);
  if (!response.ok) throw await refusal(response);
  return (await response.json()) as T;
}

export async function refusal(response: Response): Promise<Refused> {
  const body: unknown = await response.json().catch(() => ({}));
  const told = body as { detail?: string; title?: string; message?: string; errors?: { message?: string }[] };
  const parts = [told.detail ?? told.message ?? told.title ?? response.statusText];
  for (const e of told.errors ?? []) if (e.message) parts.push(e.message);
  return new Refused(response.status, parts.filter((p) => p !== '').join('; '));
}

const name = (text: string) => encodeURIComponent(text);

export const designs = () => json<DesignList>('designs');
export const design = (n: string) => json<DesignFile>(`designs/${name(n)}`);
export const units = () => json<UnitTable>('units');
export const source = (key: string) => json<Source>(`sources/${name(key)}`);
/** Titles of all sources by key. */
export const sourceTitles = () => json<{ sources: { key: string; title: string }[] | null }>('sources');
export const check = (body: CheckRequest, signal?: AbortSignal) =>
  json<CheckAnswer>('check', { method: 'POST', body: JSON.stringify(body), ...(signal && { signal }) });

/** One figure of a quick check with how it came about. */
export const why = (body: { name: string; text: string; key: string; units: UnitSystem }) =>
  json<Figure>('why', { method: 'POST', body: JSON.stringify(body) });

export const classes = () => json<{ classes: string[] | null }>('classes');
/** The text of a new design of a pack class; answers are values with units by path. */
export const draft = (packClass: string, answers: Record<string, string>) =>
  json<{ text: string }>('draft', { method: 'POST', body: JSON.stringify({ class: packClass, answers }) });

/** What differs between a baseline and a variant. */
export const compare = (body: CompareRequest, signal: AbortSignal) =>
  json<Difference>('compare', { method: 'POST', body: JSON.stringify(body), signal });

export interface OutlineRequest {
  name: string;
  text: string; // of the design
  file: string;
  content: string; // of the file, in base64
  unit?: string;
  layer?: string;
  axis?: 'vertical' | 'horizontal';
  top?: string;
  tolerance?: string;
}

/** A design with an outline from a file put in. Nothing is saved. */
export const outline = (body: OutlineRequest, signal: AbortSignal) =>
  json<Imported>('profile', { method: 'POST', body: JSON.stringify(body), signal });

/** Rows from a spreadsheet, held against the columns of a table of the design. */
export const table = (
  body: {
    name: string;
    text: string;
    path: string;
    pasted: string;
    present: InputTable;
    units: Record<string, string>;
  },
  signal: AbortSignal,
) => json<TableRead>('table', { method: 'POST', body: JSON.stringify(body), signal });

/** A design with a main dimension changed, its profile along with it. */
export const reshape = (body: { name: string; text: string; path: string; value: string }) =>
  json<Reshaped>('reshape', { method: 'POST', body: JSON.stringify(body) });

/** The data built into the program. */
export const cards = () => json<{ cards: DataCard[] | null }>('cards');
export const publishedChecks = () => json<{ rows: PublishedCheck[] | null }>('verify');

/** Writes a design; the file on disk comes back when it is not the version the page knows. */
export async function save(
  n: string,
  text: string,
  version: string,
): Promise<{ saved: Saved } | { conflict: Conflict }> {
  const response = await ask(`designs/${name(n)}`, {
    method: 'PUT',
    body: JSON.stringify({ text, version }),
  });
  // A file that is empty or gone has no text or no version to tell.
  if (response.status === 409)
    return {
      conflict: { message: '', text: '', version: '', ...((await response.json()) as Partial<Conflict>) },
    };
  if (!response.ok) throw await refusal(response);
  return { saved: (await response.json()) as Saved };
}
