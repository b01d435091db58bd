// One question to the server about a design, and the answer with what was asked.
import * as api from '../api/client';
import type { CheckAnswer, UnitSystem } from '../api/types';

interface Question {
  name: string;
  text: string;
  edits: Map<string, string>; // values by path, on top of the text
  label: string; // of the step that they are
  group: number;
  units: UnitSystem;
  asked: string; // the figure that keeps its reasons
}

export type Sent = Pick<Question, 'edits' | 'label' | 'group' | 'units'> & { answer: CheckAnswer };

export async function sent(q: Question, signal: AbortSignal): Promise<Sent> {
  const { name, text, edits, label, group, units, asked } = q;
  const list = [...edits].map(([path, text]) => ({ path, text }));
  const answer = await api.check({ name, text, edits: list, units, brief: true, why: asked }, signal);
  return { edits, label, group, units, answer };
}
