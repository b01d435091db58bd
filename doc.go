// Package costrel holds the tests of the whole: that the folders keep the
// order of the shelves. The program is cmd/costrel.
package costrel
