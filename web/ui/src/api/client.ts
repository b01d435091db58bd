// The page's one door to the server.
import { events } from './events';
import type {
  CheckAnswer,
  CheckRequest,
  CompareRequest,
  Conflict,
  DataCard,
  DesignFile,
  DesignList,
  Difference,
  Failed,
  Figure,
  Progress,
  PublishedCheck,
  Saved,
  Source,
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

async function ask(path: string, init: RequestInit): Promise<Response> {
  try {
    return await fetch(`api/${path}`, { ...init, headers: { 'Content-Type': 'application/json' } });
  } catch (error) {
    if (error instanceof DOMException && error.name === 'AbortError') throw error;
    throw new Offline(String(error));
  }
}

async function json<T>(path: string, init: RequestInit = {}): Promise<T> {
  const response = await ask(path, init);
  if (!response.ok) throw await refusal(response);
  return (await response.json()) as T;
}

async function refusal(response: Response): Promise<Refused> {
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
export const check = (body: CheckRequest, signal?: AbortSignal) =>
  json<CheckAnswer>('check', { method: 'POST', body: JSON.stringify(body), ...(signal && { signal }) });

/** One figure of a quick check with how it came about. */
export const why = (body: { name: string; text: string; key: string; units: UnitSystem }) =>
  json<Figure>('why', { method: 'POST', body: JSON.stringify(body) });

/** Computes a design with every solver; tells how far it is. Aborting the signal ends the work on the server, too. */
export async function run(
  body: CheckRequest,
  signal: AbortSignal,
  onprogress: (p: Progress) => void,
): Promise<CheckAnswer> {
  const response = await ask('runs', { method: 'POST', body: JSON.stringify(body), signal });
  if (!response.ok) throw await refusal(response);
  try {
    if (response.body) {
      for await (const { event, data } of events(response.body)) {
        if (event === 'progress') onprogress(JSON.parse(data) as Progress);
        if (event === 'result') return JSON.parse(data) as CheckAnswer;
        if (event === 'failed') throw failure(JSON.parse(data) as Failed);
      }
    }
  } catch (error) {
    if (error instanceof Refused || signal.aborted) throw error;
    throw new Offline(String(error));
  }
  throw new Offline('the run broke off');
}

const failure = (f: Failed): Refused =>
  new Refused(422, [f.message, ...(f.problems ?? []).map((p) => p.message)].join('; '));

export const classes = () => json<{ classes: string[] | null }>('classes');
/** The text of a new design of a pack class; answers are values with units by path. */
export const draft = (packClass: string, answers: Record<string, string>) =>
  json<{ text: string }>('draft', { method: 'POST', body: JSON.stringify({ class: packClass, answers }) });

/** What differs between a baseline and a variant. */
export const compare = (body: CompareRequest, signal: AbortSignal) =>
  json<Difference>('compare', { method: 'POST', body: JSON.stringify(body), signal });

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
  if (response.status === 409) return { conflict: (await response.json()) as Conflict };
  if (!response.ok) throw await refusal(response);
  return { saved: (await response.json()) as Saved };
}
