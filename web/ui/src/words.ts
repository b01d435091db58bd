// Every sentence the page shows, in one place. Words that come from the server
// (labels, reasons, cautions) are shown as they are.

import { outline, paste } from './words/bring';
import { drawing } from './words/drawing';
import { figures } from './words/figures';
import { mode } from './words/mode';
import { pages } from './words/pages';

export const words = {
  ...pages,
  ...drawing,
  ...figures,
  outline,
  paste,
  mode,
  program: 'costrel',
  purpose: 'Workbench for the development of PET bottles',
  skip: { inputs: 'Skip to the inputs', sheet: 'Skip to the drawing', board: 'Skip to the board' },

  nav: {
    designs: 'Designs',
    checks: 'Published checks',
    cards: 'Data cards',
    keys: 'Keys',
    units: 'Units',
    eu: 'EU',
    us: 'US',
    euLong: 'European units: mm, bar(g), °C, g/L',
    usLong: 'US units: in, psi(g), °F, vol',
    ownUnits: (n: number) =>
      n === 0
        ? 'Choose units for each quantity'
        : `Choose units for each quantity: ${n} ${n === 1 ? 'has a unit' : 'have units'} of your own`,
    theme: 'Light or dark',
    light: 'Light',
    dark: 'Dark',
    auto: 'As the system',
    undo: 'Undo',
    redo: 'Redo',
    undoOf: (label: string) => `Undo: ${label}`,
    redoOf: (label: string) => `Redo: ${label}`,
    save: 'Save',
    saved: 'Saved',
    unsaved: 'Not saved',
    saving: 'Saving…',
  },

  open: {
    loading: (name: string) => `Reading ${name}…`,
    missing: (name: string) => `There is no design named ${name} in this folder.`,
    toList: 'Back to the list of designs',
    unusable: 'The design cannot be computed as it stands.',
    unusableStale:
      'The design cannot be computed as it stands. The values shown are from before this change.',
    where: (line: number, column: number) => `line ${line}, column ${column}`,
    expected: 'Expected',
    correct: 'Correct it in the text here, or in an editor: the file is read again when this window is used.',
  },

  offline: {
    title: 'The server does not answer.',
    kept: 'Your changes are kept on this page. It tries again by itself.',
    retry: 'Try now',
  },
  failed: {
    title: 'The server could not answer.',
    retry: 'Try again',
    refused: 'The text cannot be computed.',
    tooLong: (bytes: number) =>
      `It is too long: ${(bytes / 2 ** 20).toFixed(2)} of 1 MB. Shorten it, or undo the last change.`,
  },

  disk: {
    title: 'The file was changed by someone else',
    ask: (name: string) =>
      `${name} on disk is newer than the one this page opened, and you have changes here. Nothing has been written.`,
    goneTitle: 'The file is gone',
    gone: (name: string) =>
      `${name} is no longer in the folder of the designs. What this page shows has not been lost.`,
    again: 'Write it again',
    mine: 'Keep mine, write over the file',
    theirs: 'Take theirs, drop my changes',
    later: 'Decide later',
    onDisk: 'On disk',
    here: 'Here',
    lines: 'Lines that differ',
    reloaded: 'The file was changed on disk and has been read again. Undo brings the earlier one back.',
  },

  doubt: {
    title: 'Save a text that cannot be computed?',
    empty: (name: string) =>
      `The text is empty. Saving would leave nothing in ${name}, and undo ends when this page is closed.`,
    faulty: (name: string) => `${name} would be written with a fault, and no board comes of it:`,
    more: (n: number) => (n === 1 ? 'and 1 more fault' : `and ${n} more faults`),
    later: 'Do not save',
    undo: 'Undo the last change',
    write: 'Save it all the same',
  },

  life: {
    title: 'Life of the bottle',
    all: 'Whole life',
    none: 'no limit',
    stops: {
      preform: 'Preform',
      heat: 'Heat',
      blow: 'Blow',
      fill: 'Fill',
      shelf: 'Shelf',
      handling: 'Handling',
      opening: 'Opening',
      recovery: 'Recovery',
      cost: 'Cost',
      other: 'Other',
    } as Record<string, string>,
  },

  inputs: {
    title: 'Inputs',
    find: 'Find an input',
    none: (text: string) => `No input is called “${text}”.`,
    empty: 'This design has no inputs that can be edited here.',
    origin: { given: 'given', default: 'default', assumed: 'assumed' } as Record<string, string>,
    originLong: {
      given: 'Written in the design file',
      default: 'Default of the pack class; not written in the file',
      assumed: 'Assumed by the program for want of better knowledge',
    } as Record<string, string>,
    back: 'Back to the default',
    absent: 'not set',
    same: (display: string) => `= ${display}`,
    note: 'Point at an input or move into it to read what it means and where its value comes from.',
    range: (lo: string, hi: string) => `Usable from ${lo} to ${hi}.`,
    atLeast: (lo: string) => `Usable from ${lo}.`,
    atMost: (hi: string) => `Usable up to ${hi}.`,
    accepts: (list: string) => `Units: ${list}.`,
    source: (text: string) => `Source: ${text}.`,
    head: 'Design',
    rows: (n: number) => (n === 1 ? '1 row' : `${n} rows`),
    row: 'Row',
    cell: (table: string, row: number, column: string) => `${table}, row ${row}, ${column}`,
    adding: 'Rows are added and taken out by pasting, or in the text.',
    on: 'yes',
    off: 'no',
  },

  text: {
    title: 'Text of the design',
    inputs: 'Inputs',
    text: 'Text',
    choose: 'Inputs or text',
    label: 'The design file',
    step: 'the text',
    good: 'The text can be computed.',
    waiting: 'Not computed yet: the server has not answered.',
    goTo: 'Show in the text',
  },

  unit: {
    empty: (list: string) => `Write a number with its unit: ${list}.`,
    emptyBare: 'Write a number.',
    emptyWords: 'This must not be empty.',
    whole: (text: string) => `“${text}” is not a whole number.`,
    digits: (text: string, digits: string) => `Write “${text}” in digits: ${digits}.`,
    part: '1 (a part of one, as in 0.25 1)',
    number: (text: string) => `“${text}” does not begin with a number.`,
    needs: (text: string, list: string) => `“${text}” has no unit. Write one of ${list}.`,
    unknown: (unit: string, list: string) => `“${unit}” is no unit of this quantity. Write one of ${list}.`,
    unknownBare: (unit: string) => `“${unit}” is not expected here: write the number alone.`,
    low: (text: string, lo: string) => `${text} is below ${lo}, the least that can be computed.`,
    high: (text: string, hi: string) => `${text} is above ${hi}, the most that can be computed.`,
    holds: 'The design keeps the last good value.',
  },

  palette: {
    title: 'Commands',
    open: 'Commands',
    find: 'What do you want? An action, an input, a figure',
    none: (text: string) => `Nothing is called “${text}”.`,
    count: (n: number) => (n === 1 ? '1 found' : `${n} found`),
    action: 'Action',
    input: 'Input',
    figure: 'Figure',
    place: 'Place',
    why: 'Why this value',
    newDesign: 'New design',
    duplicate: 'Duplicate this design',
    pin: 'Pin this design as the baseline',
    unpin: 'Let go of the baseline',
    sheet: 'Show the difference sheet',
    showInputs: 'Show the inputs',
    showText: 'Show the text of the design',
    autorun: 'Run by itself after changes: on or off',
    stop: (name: string) => `Look at: ${name}`,
    system: (name: string) => `Units: ${name}`,
    ownUnits: 'Units: choose for each quantity',
    theme: (name: string) => `Colours: ${name}`,
    openDesign: (name: string) => `Open ${name}`,
  },

  keys: {
    title: 'Keys',
    close: 'Close',
    rows: [
      ['Ctrl Z', 'Undo'],
      ['Ctrl Shift Z', 'Redo'],
      ['Ctrl K', 'Commands: every action, input and figure by its name'],
      ['Ctrl S', 'Save'],
      ['Ctrl Enter', 'Run the blow'],
      ['Space ← →', 'On the time of the blow: play and pause, one frame back or on'],
      ['/', 'Find an input'],
      ['F6', 'Next part of the page (Shift F6: the one before)'],
      ['↑ ↓', 'Move along the board'],
      ['Enter', 'On a figure: why'],
      ['↑ ↓ on a cut plane', 'Move it; with Shift ten steps at a time'],
      ['Enter on a dimension', 'Type another value; Enter takes it, Esc leaves it'],
      ['Esc', 'Leave a field as it was; close the why panel'],
      ['?', 'This list'],
    ] as [string, string][],
  },
};
