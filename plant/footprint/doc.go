// Package footprint counts the greenhouse gas of 1000 bottles from mass,
// energy and emission factors, and says what it counts: a number without its
// boundary is worth nothing.
package footprint
