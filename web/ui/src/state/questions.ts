// What is asked of the server about a design before anything of it changes.
import * as api from '../api/client';
import { Offline } from '../api/client';
import type { Problem, UnitSystem } from '../api/types';
import { words } from '../words';
import { told } from './fullrun.svelte';

/** The answer of a question, or why there is none, in words; offline is called when the server is away. */
export async function inWords(ask: () => Promise<string>, offline: () => void): Promise<string> {
  try {
    return await ask();
  } catch (error) {
    if (!(error instanceof Offline)) return told(error);
    offline();
    return words.offline.title;
  }
}

/** A fault with what was expected in its place. */
export const inFull = ({ message, expected }: Problem): string =>
  [message, expected && `${words.open.expected}: ${expected}`].filter(Boolean).join('. ');

/** Why a value cannot stand in a design; '' when it can. */
export async function refusal(
  design: { name: string; text: string; units: UnitSystem },
  path: string,
  text: string,
): Promise<string> {
  const answer = await api.check({ ...design, edits: [{ path, text }], brief: true });
  if (answer.board && answer.text !== design.text) return '';
  const fault = answer.problems?.find((p) => p.path === path) ?? answer.problems?.[0];
  return fault ? inFull(fault) : '';
}
