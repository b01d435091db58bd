// What was typed into inputs and is not taken over, by the path of the input,
// with the reason if there is one. It outlives the field, which goes when the
// list is narrowed or the text is shown in its place.

export type Drafts = Map<string, { text: string; fault: string }>;
