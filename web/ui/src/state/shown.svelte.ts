// What is shown of a design: the last good answer, in the order in which it is
// painted, and the boards before it.
import type { Board, CheckAnswer, FieldMap, Geometry, Plot, ResolvedInput, UnitSystem } from '../api/types';
import { share } from './share';

const keep = 40; // boards

export class Shown {
  offline = $state(false);
  refused = $state('');
  hopeless = $state(false); // trying again gives the same refusal
  notice = $state('');
  answers = $state(0);
  asked = ''; // the figure whose reasons the reader looks at
  steps = $state(0); // undone, redone or read anew: what stands half-typed in a field is void
  answer = $state.raw<CheckAnswer | null>(null); // the last one, good or not
  board = $state.raw<Board | null>(null); // the last good one
  stages = $state.raw<Record<string, string> | null>(null);
  geometry = $state.raw<Geometry | null>(null);
  inputs = $state.raw<ResolvedInput[]>([]);
  plots = $state.raw<Plot[]>([]);
  maps = $state.raw<FieldMap[]>([]);
  full = $state(false); // what is shown comes from a full run

  private boards = new Map<string, { units: UnitSystem; board: Board }>();
  private painted = 0;
  private drawn: ReturnType<typeof setTimeout> | undefined;

  /** The design has errors, so that what is shown is older than the text. */
  get unusable(): boolean {
    return this.answer !== null && !this.answer.board;
  }

  /** The board of an earlier text, computed as the present one was. */
  protected boardOf(text: string, units: UnitSystem): Board | null {
    const kept = this.boards.get(mark(this.full, text));
    return kept && kept.units === units ? kept.board : null;
  }

  /** Takes over what an answer says of the inputs; board and drawing stay. */
  protected take(fresh: CheckAnswer): void {
    this.answer = share(this.answer, fresh);
    this.inputs = this.answer.resolved ?? [];
  }

  protected show(fresh: CheckAnswer, units: UnitSystem): void {
    const answer = share(this.answer, fresh); // what did not change is not drawn again
    this.answer = answer;
    if (!answer.board) return;
    this.board = answer.board;
    this.stages = answer.stages;
    this.geometry = answer.geometry ?? null;
    this.inputs = answer.resolved ?? [];
    this.full = answer.full;
    // The board comes first: the traces follow when it is painted.
    cancelAnimationFrame(this.painted);
    clearTimeout(this.drawn);
    this.painted = requestAnimationFrame(() => {
      this.drawn = setTimeout(() => {
        this.plots = answer.plots ?? [];
        this.maps = answer.maps ?? [];
      });
    });
    const text = mark(answer.full, answer.text);
    this.boards.delete(text);
    this.boards.set(text, { units, board: answer.board });
    if (this.boards.size > keep) this.boards.delete(this.boards.keys().next().value!);
  }
}

const mark = (full: boolean, text: string) => `${full ? 'full' : 'preview'} ${text}`;
