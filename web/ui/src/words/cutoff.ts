// What the page says of a full run that was cut off.
export const cutoff = {
  title: 'A full run was cut off.',
  told: (when: string, stage: string, percent: number, why: string) =>
    `It began ${when}${stage === '' ? '' : ` and was at ${stage}, ${percent} %`}: ${why}.`,
  other:
    'It computed another text than this one; running it again brings that text back, as a step that undo takes away.',
  again: 'Run again',
  dismiss: 'Dismiss',
  step: 'text of the run that was cut off',
};
