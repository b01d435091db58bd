// Package stiff holds what an implicit integrator of a stiff system needs, as
// parts: tableaus of one-step methods that damp the fastest modes altogether,
// a controller of the step, and a tridiagonal elimination.
//
// The system itself, its Newton iteration and its structure stay with the
// caller, who knows which unknowns talk to which.
package stiff
