// Package cite holds the published sources that costrel's constants, methods
// and checks point to, the reader of data cards, and the form of a published
// check. Entries live in one file, sources.txt, under AuthorYear keys.
package cite
