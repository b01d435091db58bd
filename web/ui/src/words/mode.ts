// The buckling mode in the solid view.

export const mode = {
  choose: 'What the solid shows',
  wall: 'Wall',
  mode: 'Buckling mode',
  amplitude: 'Drawn with',
  section: 'Section',
  plan: (z: string) => `Plan at height ${z}`,
  told: (test: string, n: number, load: string, reached: boolean) =>
    n === 0
      ? `${test}: a fold all round the axis at ${load} on the perfect wall`
      : `${test}: ${n} waves round the axis at ${load} on the perfect wall${reached ? '' : ', not reached within the stroke'}`,
  size: 'A mode has a form and no size; the amplitude is for the eye. The finish above the ledge is drawn still, it is no part of the computed wall; a base with feet is drawn round, as its mean round the axis, here as in the view of the wall.',
  old: 'From the last full run, before the changes since.',
  none: 'Run the blow to compute the buckling mode.',
  describe: (n: number, test: string) =>
    `The wall of the bottle as a solid in its buckling mode under ${test}, ${n === 0 ? 'a fold all round the axis' : `${n} waves round the axis`}, from inward to outward as colour. Section and plan beside it show the same.`,
  inward: 'inward',
  outward: 'outward',
  unloaded: 'unloaded',
  crest: 'crest',
  trough: 'trough',
  folded: 'folded',
  describeFlat: (n: number) =>
    n === 0
      ? 'Section of the folded wall beside the unloaded one, and a plan, which stays round.'
      : `Section of the wall at crest and trough of the mode beside the unloaded one, and a plan with ${n} waves.`,
};
