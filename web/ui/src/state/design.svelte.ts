// One open design: its text, what the server makes of it, undo, and the file
// on disk behind it.
import * as api from '../api/client';
import { Offline, Refused } from '../api/client';
import type {
  Board,
  CheckAnswer,
  Conflict,
  FieldMap,
  Figure,
  Geometry,
  Playback,
  Plot,
  ResolvedInput,
  UnitSystem,
} from '../api/types';
import { words } from '../words';
import { FullRun, told } from './fullrun.svelte';
import { before, begin, canRedo, canUndo, present, record, redo, undo } from './history';
import { Latest } from './latest';

const gentle = 12; // ms to wait for the next keystroke while an answer is under way
const typing = 120; // ms to wait for the next keystroke in the text of the design
const growing = 350; // ms while the typed unit could still become another
const again = 2000; // ms between tries while the server does not answer

interface Sent {
  edits: Map<string, string>;
  label: string;
  group: number;
  units: UnitSystem;
  answer: CheckAnswer;
}

export class OpenDesign {
  phase = $state<'loading' | 'missing' | 'failed' | 'ready'>('loading');
  offline = $state(false);
  refused = $state('');
  notice = $state('');
  pending = $state(false); // a change is not on the board yet
  saving = $state(false);
  answers = $state(0);
  steps = $state(0); // undone, redone or read anew: what stands half-typed in a field is void
  conflict = $state.raw<Conflict | null>(null);
  answer = $state.raw<CheckAnswer | null>(null);
  board = $state.raw<Board | null>(null); // the last good one
  stages = $state.raw<Record<string, string> | null>(null);
  geometry = $state.raw<Geometry | null>(null);
  inputs = $state.raw<ResolvedInput[]>([]);
  plots = $state.raw<Plot[]>([]);
  maps = $state.raw<FieldMap[]>([]);
  full = $state(false); // what is shown comes from a full run
  readonly fullRun = new FullRun();

  asked = ''; // the figure whose reasons the reader looks at

  private history = $state.raw(begin(''));
  private onDisk = $state('');
  private version = '';
  private waved = ''; // version on disk about which the reader decided later
  private edits = new Map<string, string>();
  private label = $state('');
  private group = 0;
  private saveNext = false;
  private runNext = false;
  private boards = new Map<string, { units: UnitSystem; board: Board }>();
  private painted = 0;
  private drawn: ReturnType<typeof setTimeout> | undefined;
  private retry: ReturnType<typeof setTimeout> | undefined;
  private readonly queue: Latest<Sent>;

  constructor(
    readonly name: string,
    private units: UnitSystem,
  ) {
    this.queue = new Latest(
      (signal) => this.send(signal),
      (sent) => this.received(sent),
      (error) => this.lost(error),
    );
    void this.load();
  }

  get text(): string {
    return present(this.history);
  }
  get dirty(): boolean {
    return this.phase === 'ready' && (this.text !== this.onDisk || this.pendingEdits);
  }
  get undoLabel(): string | null {
    if (this.pendingEdits) return this.label;
    return canUndo(this.history) ? this.history.past.at(-1)!.label : null;
  }
  get redoLabel(): string | null {
    return canRedo(this.history) ? this.history.future.at(-1)!.label : null;
  }
  /** The board before the last step, to show what it moved. */
  get earlier(): Board | null {
    const kept = this.boards.get(mark(this.full, before(this.history)));
    return kept && kept.units === this.units && before(this.history) !== this.text ? kept.board : null;
  }
  /** The design has errors, so that what is shown is older than the text. */
  get unusable(): boolean {
    return this.answer !== null && !this.answer.board;
  }

  /** The last full run belongs to another text than the present one. */
  get blownStale(): boolean {
    const { last } = this.fullRun;
    return last !== null && (this.pendingEdits || last.text !== this.text);
  }
  get playback(): Playback | null {
    return this.fullRun.last?.answer.playback ?? null;
  }
  get canRun(): boolean {
    return this.phase === 'ready' && !this.pending && !this.unusable && !this.full && !this.fullRun.running;
  }

  private pendingEdits = $state(false);

  async load(): Promise<void> {
    clearTimeout(this.retry);
    try {
      const file = await api.design(this.name);
      this.offline = false;
      this.version = file.version;
      this.onDisk = file.text;
      this.history = begin(file.text);
      this.phase = 'ready';
      this.ask(0);
    } catch (error) {
      this.offline = error instanceof Offline;
      if (this.offline) this.retry = setTimeout(() => void this.load(), again);
      else {
        // A name the folder cannot hold (422) is as missing as one it does not hold (404).
        this.phase = error instanceof Refused && [404, 422].includes(error.status) ? 'missing' : 'failed';
        this.refused = told(error);
      }
    }
  }

  /** Starts a new undo step: changes after this call are one step until the next call. */
  visit(): void {
    this.group++;
  }

  edit(path: string, text: string, label: string, mayGrow = false): void {
    this.edits.set(path, text);
    this.pendingEdits = true;
    this.label = label;
    this.ask(mayGrow ? growing : this.pending ? gentle : 0);
  }

  /** Takes another text of the whole design, as it is typed. */
  rewrite(text: string, label = words.text.step, delay = typing): void {
    if (text === this.text) return;
    this.history = record(this.history, { state: text, label, group: this.group });
    this.ask(delay);
  }

  /** Takes another text as a step of its own. */
  replace(text: string, label: string): void {
    this.queue.drop();
    this.dropEdits();
    this.visit();
    this.rewrite(text, label, 0);
    this.visit();
  }

  /** Changes a main dimension, and a given profile along with it; the fault in words, or ''. */
  async reshape(path: string, text: string, label: string): Promise<string> {
    try {
      const before = this.text;
      const answer = await api.reshape({ name: this.name, text: before, path, value: text });
      if (answer.text === '') return answer.problems?.[0]?.message ?? '';
      if (before === this.text) this.replace(answer.text, label);
      return '';
    } catch (error) {
      if (!(error instanceof Offline)) return told(error);
      this.wentOffline();
      return words.offline.title;
    }
  }

  /** What the server says of a value that is not taken over: the fault in words, or ''. */
  async try(path: string, text: string): Promise<string> {
    try {
      const answer = await api.check({
        name: this.name,
        text: this.text,
        edits: [{ path, text }],
        units: this.units,
        brief: true,
      });
      if (answer.board && answer.text !== this.text) return '';
      const fault = answer.problems?.find((p) => p.path === path) ?? answer.problems?.[0];
      return fault?.message ?? '';
    } catch (error) {
      if (!(error instanceof Offline)) return told(error);
      this.wentOffline();
      return words.offline.title;
    }
  }

  /** How a figure of the quick check came about. */
  explain(key: string): Promise<Figure> {
    return api.why({ name: this.name, text: this.text, key, units: this.units });
  }

  undo(): void {
    this.queue.drop();
    if (this.edits.size > 0) this.dropEdits();
    else this.history = undo(this.history);
    this.step();
  }

  /** Takes back what the present visit to a field has changed. */
  revert(): void {
    if (this.pendingEdits || (canUndo(this.history) && this.history.past.at(-1)!.group === this.group))
      this.undo();
  }

  redo(): void {
    this.queue.drop();
    this.dropEdits();
    this.history = redo(this.history);
    this.step();
  }

  setUnits(units: UnitSystem): void {
    if (units === this.units) return;
    this.units = units;
    if (this.phase === 'ready') this.ask(0);
  }

  /** Computes the present text with every solver; the preview stands until the result is there. */
  async run(): Promise<void> {
    if (!this.canRun) {
      this.runNext = this.phase === 'ready' && this.pending; // as soon as the last change has come back
      return;
    }
    this.notice = '';
    const { text, units } = this;
    const answer = await this.fullRun.start(this.name, text, units);
    if (!answer || text !== this.text || units !== this.units) return;
    this.show(answer, units);
    this.answers++;
  }

  /** Stops a full run on the reader's word. */
  cancelRun(): void {
    this.runNext = false;
    this.fullRun.cancel();
  }

  async save(): Promise<void> {
    if (this.phase !== 'ready' || this.saving) return;
    if (this.edits.size > 0 || this.pending) {
      this.saveNext = true; // as soon as the last change has come back
      return;
    }
    if (this.text !== this.onDisk) await this.write(this.version);
  }

  keepMine(): void {
    const theirs = this.conflict;
    this.conflict = null;
    if (theirs) void this.write(theirs.version);
  }

  takeTheirs(): void {
    const theirs = this.conflict;
    this.conflict = null;
    if (theirs) this.adopt(theirs.text, theirs.version);
  }

  decideLater(): void {
    this.waved = this.conflict?.version ?? '';
    this.conflict = null;
  }

  /** Looks whether the file on disk is still the one that was opened. */
  async look(): Promise<void> {
    if (this.phase !== 'ready' || this.saving || this.conflict) return;
    try {
      const file = await api.design(this.name);
      if (file.version === this.version || file.version === this.waved || this.saving) return;
      if (this.dirty) this.conflict = { message: '', text: file.text, version: file.version };
      else {
        this.adopt(file.text, file.version);
        this.notice = words.disk.reloaded;
      }
    } catch (error) {
      if (error instanceof Offline) this.wentOffline();
    }
  }

  tryNow(): void {
    if (this.phase === 'ready') this.ask(0);
    else {
      this.phase = 'loading';
      void this.load();
    }
  }

  close(): void {
    clearTimeout(this.retry);
    this.fullRun.withdraw();
    this.queue.drop();
  }

  private ask(delay: number): void {
    this.pending = true;
    this.notice = this.fullRun.running ? words.run.withdrawn : '';
    this.fullRun.changed();
    this.queue.ask(delay);
  }

  private step(): void {
    this.group++;
    this.steps++;
    this.ask(0);
  }

  private dropEdits(): void {
    this.edits.clear();
    this.pendingEdits = false;
  }

  private async send(signal: AbortSignal): Promise<Sent> {
    const edits = new Map(this.edits);
    const { label, group, units } = this;
    const answer = await api.check(
      {
        name: this.name,
        text: this.text,
        edits: [...edits].map(([path, text]) => ({ path, text })),
        units,
        brief: true,
        why: this.asked,
      },
      signal,
    );
    return { edits, label, group, units, answer };
  }

  private received(sent: Sent): void {
    // A text that has been run in full shows its full result again.
    const answer = (sent.answer.board && this.fullRun.of(sent.units, sent.answer.text)) || sent.answer;
    for (const [path, text] of sent.edits) if (this.edits.get(path) === text) this.edits.delete(path);
    this.pendingEdits = this.edits.size > 0;
    if (sent.edits.size > 0) {
      this.history = record(this.history, { state: answer.text, label: sent.label, group: sent.group });
    }
    this.show(answer, sent.units);
    this.offline = false;
    this.refused = '';
    this.pending = false;
    this.answers++;
    // Asked for while the change was under way; or only the units are new.
    if (this.runNext || (this.fullRun.last?.text === this.text && !answer.full)) {
      this.runNext = false;
      void this.run();
    }
    if (this.saveNext) {
      this.saveNext = false;
      void this.save();
    }
  }

  private show(answer: CheckAnswer, units: UnitSystem): void {
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
    this.fullRun.fault = answer.full && !answer.playback ? blowFault(answer.board) : '';
    this.remember(mark(answer.full, answer.text), { units, board: answer.board });
  }

  private remember(text: string, kept: { units: UnitSystem; board: Board }): void {
    this.boards.delete(text);
    this.boards.set(text, kept);
    if (this.boards.size > 40) this.boards.delete(this.boards.keys().next().value!);
  }

  private lost(error: unknown): void {
    if (error instanceof Offline) {
      this.wentOffline();
      return;
    }
    this.saveNext = false;
    this.pending = false;
    this.refused = told(error);
    this.dropEdits();
  }

  private wentOffline(): void {
    this.offline = true;
    this.pending = true;
    this.queue.ask(again);
  }

  private async write(version: string): Promise<void> {
    this.saving = true;
    const text = this.text;
    try {
      const result = await api.save(this.name, text, version);
      this.offline = false;
      if ('conflict' in result) this.conflict = result.conflict;
      else {
        this.version = result.saved.version;
        this.onDisk = text;
        this.refused = '';
      }
    } catch (error) {
      if (error instanceof Offline) this.wentOffline();
      else this.refused = told(error);
    } finally {
      this.saving = false;
    }
  }

  private adopt(text: string, version: string): void {
    this.queue.drop();
    this.dropEdits();
    this.version = version;
    this.onDisk = text;
    this.history = record(this.history, { state: text, label: words.disk.title, group: ++this.group });
    this.step();
  }
}

const mark = (full: boolean, text: string) => `${full ? 'full' : 'preview'} ${text}`;

/** Why a full run has no blow. */
const blowFault = (board: Board): string =>
  (board.problems ?? []).find((p) => p.stage === 'blow')?.reason ?? words.run.noBlow;
