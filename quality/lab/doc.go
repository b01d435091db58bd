// Package lab reads laboratory tables and judges their samples against
// limits.
//
// The reader takes what labs send: decimal comma or point, any usual
// separator, merged or split headings, units in the heading or the cell,
// censored values (<0.5, >60), blank rows, mean rows and trailing notes. It
// guesses no unit and drops nothing silently: each non-blank cell ends as a
// reading, a label, a mark for a missing value, a note, or a fault with line
// and column. Which heading means which quantity is written down in the
// sheets, one rule a column.
package lab
