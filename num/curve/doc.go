// Package curve holds plane curves of a meridian: the outline (z, r) of a body
// of revolution about the z axis, made of straight lines, circular arcs and
// interpolating splines.
//
// A [Meridian] runs from the foot to the mouth of a vessel. Outside lies to
// the left of the direction of travel in the plane with z to the right and r
// upward, so a wall that rises along +z has its outward normal along +r, and
// a base drawn from the axis outward has it along -z. Curvature is positive
// where the surface is convex seen from outside: a sphere of radius R has
// both curvatures 1/R.
//
// Lengths, areas and volumes of lines and arcs are exact to rounding; those of
// splines are integrated by Gauss panels refined until they stand still. The
// inner face of a wall is the curve set off along the inward normal with
// mitred corners ([Meridian.Inner]); [Meridian.Shell] gives the volume swept
// by the wall between two arc lengths.
//
// Everything is SI: metres in, m, m², m³ out. Errors name the row of the
// table, the value and the remedy, in millimetres.
package curve
