// Package banded solves the narrow linear systems of chains: a line of cells
// or nodes each of which feels only its two neighbours. The work grows in
// proportion to the length, and nothing is allocated after New.
//
// Blocks2 holds a tridiagonal matrix of 2 by 2 blocks, Line a scalar one.
// Both factor without exchanging rows, which is right for matrices whose
// diagonal leads, as those of stiffness and conduction do; a pivot that
// vanishes is reported.
package banded
