// Words of the lists: designs, published checks, data cards.

export const pages = {
  designs: {
    title: 'Designs',
    intro: 'Each design is one text file in the folder the server was started with.',
    name: 'File',
    design: 'Design',
    modified: 'Last changed',
    unusable: 'Not usable as it stands',
    loading: 'Reading the list of designs…',
    empty: 'No design in this folder yet.',
    fresh: 'New design',
    duplicate: 'Duplicate',
    actions: 'What can be done',
    emptyHow: 'The same from the command line; reload this page afterwards:',
    emptyCommand: 'costrel new my.yaml --class csd-500',
    reload: 'Read the list again',
    licences: 'Licences of the parts this page is made of',
  },

  fresh: {
    title: 'New design',
    class: 'Pack class',
    name: 'Name of the design',
    file: 'File',
    fileHint: 'made of the name',
    intro: 'What is left empty stays as the class has it. Everything can be changed later.',
    make: 'Write the design',
    cancel: 'Cancel',
    needsName: 'The design needs a name.',
    taken: (file: string) => `There is already a file ${file} in the folder. Nothing has been written.`,
  },

  copy: {
    title: (file: string) => `Duplicate ${file}`,
    asHere: 'The copy is taken of the design as it stands on this page.',
    name: 'Name of the copy',
    same: 'as it is',
    long: (n: number, most: number) =>
      `The file name has ${n} letters; at most ${most} are taken. Shorten it.`,
    twice: (name: string) =>
      `“${name}” has an ending of a file before its end. Write one name with .yaml behind it, or without an ending.`,
    make: 'Duplicate',
  },

  checks: {
    title: 'Published checks',
    intro:
      'The same rows that the tests and the command “costrel verify” run: our value beside the published one, with the deviation that is allowed.',
    loading: 'Running the published checks…',
    empty: 'No published check in this build.',
    id: 'Row',
    case: 'Case',
    ours: 'Ours',
    published: 'Published',
    allowed: 'Allowed',
    source: 'Source',
    result: 'Result',
    ok: 'agrees',
    off: 'deviates',
    known: 'Known',
    tally: (ok: number, all: number) => `${ok} of ${all} agree`,
  },

  cards: {
    title: 'Data cards',
    intro:
      'The values built into the program, each with its range, how far it is trusted and where it comes from. A design may overrule most of them.',
    loading: 'Reading the data cards…',
    find: 'Find a card, a value, a source',
    none: (text: string) => `No card, value or source is called “${text}”.`,
    count: (cards: number, values: number) => `${cards} cards, ${values} values`,
    what: 'What',
    value: 'Value',
    range: 'Range',
    confidence: 'Confidence',
    source: 'Source',
  },
};
