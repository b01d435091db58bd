// Package blow computes how a hot preform becomes a bottle: a layered shell
// of revolution that keeps its volume, stretched by a rod and blown by air
// into a mould, which it touches, sticks to and cools against.
//
// A [Case] is the whole input in SI units; [Run] answers with the wall along
// the bottle, the course of pressure and volume, flags with their place, and
// balances as numbers. Without a mould the same run is a free blow, the
// virtual test of a preform.
//
// The axis is measured as depth z [m] below the support ledge, positive
// downwards; r [m] is the radius. Lists along the wall run from gate to ledge
// in results, from ledge to gate in input profiles.
//
// Method: two-node cones on the mid-line with layers of their own temperature
// and state; backward Euler in time with inertia; Newton with the exact
// tangent; the pressure is coupled to the air mass through the volume, which
// carries the solution past the pressure maximum. docs/theory/blow.md has the
// equations.
package blow
