// Package shell answers whether a bottle holds: stress, growth, burst, top
// load, vacuum and base of a thin shell of revolution.
//
// The element is a cone of two nodes with shear (Reissner, Mindlin), one
// integration point along the meridian and five through the wall. Axisymmetric
// states are solved with large displacement and rotation, logarithmic strain,
// Hill plasticity and creep; non-axisymmetric buckling is found in Fourier
// harmonics on the deformed, prestressed shell, with pressure that follows the
// wall.
//
//	Station, Build, Mesh    the profile, its wall and the elements
//	Ply, Hardening, Creep   what the wall is made of
//	Model                   mesh with supports; Linear, Nonlinear, Critical
//	Pressurise, Grow, Burst, TopLoad, Vacuum, Panels, PushUp, RollOut, Soften, Rise
//	                        the virtual tests, one a file
//	closed_*.go             closed forms the solver is held against
//
// The petaloid base is represented by the shell of revolution with the same
// wall; factors for straps and feet are data and marked as estimates.
//
// Cautions: a bottle under gas pressure stores energy that wounds. Burst tests
// are made with water, behind a guard. A computed burst pressure is no licence
// to stand beside a bottle below it.
package shell
