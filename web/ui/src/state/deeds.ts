// What can be done on the workbench, by name, for the palette of commands.
import { words } from '../words';
import { pin } from './comparison.svelte';
import type { OpenDesign } from './design.svelte';
import type { Command } from './palette';
import { prefs } from './prefs.svelte';
import { present } from './stages';

/** What the workbench itself does for a command. */
export interface Bench {
  title: string;
  texting: boolean; // the text stands in the place of the inputs
  differs: boolean; // there is a difference sheet
  duplicate: () => void;
  sheet: () => void;
  showText: () => void;
  seek: () => void;
  solid: () => void;
  play: () => void;
  keys: () => void;
  outline: () => void;
  stop: (stage: string) => void;
  showInput: (path: string) => void;
  paste: (path: string) => void;
  why: (key: string) => void;
}

export function deeds(design: OpenDesign, bench: Bench): Command[] {
  const w = words.palette;
  const act = (id: string, label: string, run: () => void, hint = ''): Command => ({
    id,
    label,
    group: w.action,
    hint,
    run,
  });
  const list: (Command | false)[] = [
    design.canRun && act('run', words.run.start, () => void design.run(), 'Ctrl Enter'),
    design.fullRun.running !== null && act('cancel', words.run.cancel, () => design.cancelRun()),
    design.undoLabel !== null &&
      act('undo', words.nav.undoOf(design.undoLabel), () => design.undo(), 'Ctrl Z'),
    design.redoLabel !== null &&
      act('redo', words.nav.redoOf(design.redoLabel), () => design.redo(), 'Ctrl Shift Z'),
    design.dirty && act('save', words.nav.save, () => void design.save(), 'Ctrl S'),
    act('duplicate', w.duplicate, bench.duplicate),
    act('pin', w.pin, () => (pin.baseline = { file: design.name, text: design.text, title: bench.title })),
    pin.baseline !== null && act('unpin', w.unpin, () => (pin.baseline = null)),
    bench.differs && act('sheet', w.sheet, bench.sheet),
    bench.texting ? act('inputs', w.showInputs, bench.seek) : act('text', w.showText, bench.showText),
    act('solid', words.solid.open, bench.solid),
    !design.unusable && act('outline', words.outline.open, bench.outline),
    act('autorun', w.autorun, () => (prefs.autorun = !prefs.autorun)),
    design.playback !== null && act('play', `${words.play.title}: ${words.play.play}`, bench.play),
    act('keys', words.nav.keys, bench.keys, '?'),
    ...['', ...present(design.board, design.stages)].map((stop) =>
      act(`stop-${stop}`, w.stop(stop === '' ? words.life.all : words.life.stops[stop]!), () =>
        bench.stop(stop),
      ),
    ),
    ...design.inputs
      .filter((i) => i.table)
      .map((i) => act(`paste-${i.path}`, words.paste.into(i.label), () => bench.paste(i.path))),
    ...design.inputs
      .filter((i) => i.path !== 'schema')
      .map((i) => ({
        id: `input-${i.path}`,
        label: `${i.section === '' ? '' : `${i.section}: `}${i.label}`,
        group: w.input,
        hint: i.table ? '' : i.display,
        keywords: i.path,
        run: () => bench.showInput(i.path),
      })),
    ...(design.board?.figures ?? []).map((f) => ({
      id: `figure-${f.key}`,
      label: f.label,
      group: w.figure,
      hint: f.display,
      keywords: f.key,
      run: () => bench.why(f.key),
    })),
  ];
  return list.filter((c) => c !== false);
}
