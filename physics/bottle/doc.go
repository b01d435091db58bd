// Package bottle holds the noun Bottle: the outer profile of a blown bottle
// from the standing plane (z = 0) to the underside of the support ledge, the
// bore of the finish above it, a base and a wall.
//
// From these it gives volumes (brimful, to a level, headspace), areas, arc
// lengths, section weights at cut planes, the centre of gravity and the tip
// angle, and stations with tangent, normal and curvatures for the solvers.
//
// The wall lies inward of the profile along its normal; arc length s counts
// from the gate (s = 0 on the axis) to the ledge. Bases that are not round,
// petaloid and ribbed, stand in the profile as averaged round the axis; every
// bottle that has one says so in its warnings, with the ratio of the real
// surface to the averaged one.
package bottle
