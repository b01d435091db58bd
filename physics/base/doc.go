// Package base holds what can be said of a bottle base without a shell model:
// the stress of the gate disc, of the straps of a petaloid base, when a punt
// snaps out, an index that ranks bases by stress cracking, the time to crack as
// laboratory data show it, and the rules of thumb of the trade.
//
// The disc is a clamped plate and the strap a hemisphere with a factor; a real
// base is neither. The stresses are estimates that compare bases of one kind.
// Stress cracking needs stress, a chemical and unoriented polyester together
// (Zagarola); the index knows only the first: ranking only.
package base

// Ranking is the label of every index of this package.
const Ranking = "estimate: ranking only"

// Estimate is the label of every stress of this package.
const Estimate = "estimate"
