// One open design: its text, what the server makes of it, undo, and the file
// on disk behind it.
import * as api from '../api/client';
import { Offline, Refused } from '../api/client';
import type { Board, CheckAnswer, Figure, Playback, UnitSystem } from '../api/types';
import { words } from '../words';
import { blowFault, FullRun, told } from './fullrun.svelte';
import { before, begin, canRedo, canUndo, present, record, redo, undo } from './history';
import { Lag } from './lag.svelte';
import { Latest } from './latest';
import { OnDisk } from './ondisk.svelte';
import { inWords, refusal } from './questions';
import { sent, type Sent } from './sent';
import { Shown } from './shown.svelte';
import { again, faulty, gentle, growing, longest, typing } from './waits';

export class OpenDesign extends Shown {
  phase = $state<'loading' | 'missing' | 'failed' | 'ready'>('loading');
  doubted = $state(false); // saving a text that cannot be computed is asked about
  readonly fullRun = new FullRun();
  readonly disk: OnDisk;

  private history = $state.raw(begin(''));
  private edits = new Map<string, string>();
  private label = $state('');
  private group = 0;
  private edited = 0; // group of the edits under way
  private saveNext = false;
  private runNext = false;
  private answered = $state<string | null>(null); // the text that the last answer belongs to
  private faults = 0; // of the server, one after the other
  private following = $state.raw<Sent | null>(null); // its full run is under way, the one before stands
  private retry: ReturnType<typeof setTimeout> | undefined;
  private readonly queue: Latest<Sent>;

  constructor(
    readonly name: string,
    private units: UnitSystem,
  ) {
    super();
    this.disk = new OnDisk(name);
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
    return this.phase === 'ready' && (this.text !== this.disk.text || this.pendingEdits);
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
    const was = before(this.history);
    return was === this.text ? null : this.boardOf(was, this.units);
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
    return this.phase === 'ready' && !this.behind && !this.full && !this.fullRun.running;
  }
  /** A change is not on the board yet. */
  get pending(): boolean {
    return this.lag.pending;
  }
  /** What is shown is older than what was typed, and for long enough to say so. */
  get stale(): boolean {
    return this.unusable || this.lag.late || this.unanswered;
  }
  /** The last change has no answer and none is on its way at once: the server failed, or is away. */
  get unanswered(): boolean {
    const behind = this.pendingEdits || (this.answered !== null && this.answered !== this.text);
    return behind && (!this.pending || this.lag.late);
  }
  /** What is shown is older than what was typed. */
  get behind(): boolean {
    return this.pending || this.pendingEdits || this.unusable || this.unanswered;
  }

  private pendingEdits = $state(false);
  private readonly lag = new Lag();

  async load(): Promise<void> {
    clearTimeout(this.retry);
    try {
      const file = await this.disk.read();
      this.offline = false;
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
    this.edited = this.group;
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
    const before = this.text;
    return inWords(
      async () => {
        const answer = await api.reshape({ name: this.name, text: before, path, value: text });
        if (answer.text === '') return answer.problems?.[0]?.message ?? '';
        if (before === this.text) this.replace(answer.text, label);
        return '';
      },
      () => this.wentOffline(),
    );
  }

  /** What the server says of a value that is not taken over: the fault in words, or ''. */
  async try(path: string, text: string): Promise<string> {
    const { name, text: present, units } = this;
    return inWords(
      () => refusal({ name, text: present, units }, path, text),
      () => this.wentOffline(),
    );
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
    const own = canUndo(this.history) && this.history.past.at(-1)!.group === this.group;
    if (!this.pendingEdits && !own) return;
    this.queue.drop();
    this.dropEdits();
    if (own) this.history = undo(this.history);
    this.step();
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
    if (this.fullRun.unreached) this.wentOffline();
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
    if (this.phase !== 'ready' || this.disk.saving) return;
    if (this.edits.size > 0 || (this.pending && !this.following)) {
      this.saveNext = true; // as soon as the last change has come back
      if (!this.pending) this.ask(0);
      return;
    }
    if (this.text === this.disk.text) return;
    if (this.unusable) this.doubted = true;
    else await this.write();
  }

  /** Answers the question whether a text that cannot be computed is written. */
  decide(answer: 'write' | 'undo' | 'later'): void {
    if (!this.doubted) return;
    this.doubted = false;
    if (answer === 'write') void this.write();
    if (answer === 'undo') this.undo();
  }

  keepMine(): void {
    const theirs = this.disk.settle();
    if (theirs) void this.write(theirs.version);
  }

  takeTheirs(): void {
    const theirs = this.disk.settle();
    if (theirs) this.adopt(theirs.text, theirs.version);
  }

  /** Looks whether the file on disk is still the one that was opened. */
  async look(): Promise<void> {
    if (this.phase !== 'ready') return;
    try {
      const file = await this.disk.changed();
      if (!file) return;
      if (this.dirty) this.disk.conflict = { message: '', text: file.text, version: file.version };
      else {
        this.adopt(file.text, file.version);
        this.notice = words.disk.reloaded;
      }
    } catch (error) {
      if (error instanceof Offline) this.wentOffline();
      else if (error instanceof Refused && error.status === 404) this.disk.gone();
    }
  }

  tryNow(): void {
    this.fullRun.tryNow();
    if (this.phase === 'ready') this.ask(0);
    else {
      this.phase = 'loading';
      void this.load();
    }
  }

  close(): void {
    clearTimeout(this.retry);
    this.following = null;
    this.lag.stop();
    this.fullRun.withdraw();
    this.queue.drop();
  }

  private ask(delay: number): void {
    this.lag.begin();
    this.notice = this.fullRun.running && !this.following ? words.run.withdrawn : '';
    this.following = null;
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

  private send(signal: AbortSignal): Promise<Sent> {
    const { name, text, label, edited: group, units, asked } = this;
    return sent({ name, text, edits: new Map(this.edits), label, group, units, asked }, signal);
  }

  private received(sent: Sent): void {
    // A text that has been run in full shows its full result again.
    const answer = (sent.answer.board && this.fullRun.of(sent.units, sent.answer.text)) || sent.answer;
    for (const [path, text] of sent.edits) if (this.edits.get(path) === text) this.edits.delete(path);
    this.pendingEdits = this.edits.size > 0;
    if (sent.edits.size > 0) {
      this.history = record(this.history, { state: answer.text, label: sent.label, group: sent.group });
    }
    this.answered = this.text;
    this.faults = 0;
    this.offline = false;
    this.refused = '';
    this.hopeless = false;
    // The change moves nothing of the blow: the full result is worked out again, with no preview between.
    if (this.full && answer.board && !answer.full && answer.blow_kept) {
      this.take(answer);
      void this.follow({ ...sent, answer });
      this.saveIfAsked();
      return;
    }
    this.show(answer, sent.units);
    this.lag.end();
    this.answers++;
    // Asked for while the change was under way; or only the units are new.
    if (this.runNext || (this.fullRun.last?.text === this.text && !answer.full)) {
      this.runNext = false;
      void this.run();
    }
    this.saveIfAsked();
  }

  /** Runs a text in full by itself; without a result its preview is shown. */
  private async follow(sent: Sent): Promise<void> {
    this.following = sent;
    this.runNext = false;
    const full = await this.fullRun.start(this.name, sent.answer.text, sent.units);
    if (this.following !== sent) return; // another change has come
    this.following = null;
    const { fault } = this.fullRun;
    this.show(full ?? sent.answer, sent.units);
    if (!full) this.fullRun.fault = fault;
    this.lag.end();
    this.answers++;
    if (this.fullRun.unreached) this.wentOffline();
  }

  private saveIfAsked(): void {
    if (!this.saveNext) return;
    this.saveNext = false;
    void this.save();
  }

  protected override show(answer: CheckAnswer, units: UnitSystem): void {
    super.show(answer, units);
    if (answer.board) this.fullRun.fault = answer.full && !answer.blown ? blowFault(answer.board) : '';
  }

  private lost(error: unknown): void {
    if (error instanceof Offline) {
      this.wentOffline();
      return;
    }
    this.saveNext = false;
    this.lag.end();
    const status = error instanceof Refused ? error.status : 0;
    this.hopeless = status === 413;
    // The change stays asked for: trying again takes it along, undo drops it.
    this.refused = this.hopeless ? words.failed.tooLong(written(this.text)) : told(error);
    if (status >= 500 || status === 429) this.queue.ask(Math.min(longest, faulty * 2 ** this.faults++));
  }

  private wentOffline(): void {
    this.offline = true;
    this.lag.hold();
    this.queue.ask(again);
  }

  private async write(version?: string): Promise<void> {
    try {
      if (await this.disk.write(this.text, version)) this.refused = '';
      this.offline = false;
    } catch (error) {
      if (error instanceof Offline) this.wentOffline();
      else this.refused = told(error);
    }
  }

  private adopt(text: string, version: string): void {
    this.queue.drop();
    this.dropEdits();
    this.disk.opened(text, version);
    this.history = record(this.history, { state: text, label: words.disk.title, group: ++this.group });
    this.step();
  }
}

/** The length of a text as it is sent, bytes. */
const written = (text: string): number => new Blob([JSON.stringify(text)]).size;
