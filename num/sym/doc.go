// Package sym solves symmetric banded systems and finds the loads at which
// they turn singular.
//
//	Band        a symmetric banded matrix
//	Factor      its LDLᵀ form: solves, and counts negative pivots (inertia)
//	Pencil      lowest critical loads of K + λ G by inertia and shift-invert
//	ArcLength   follows an equilibrium path through limit points
//
// By Sylvester's law the number of negative pivots of K + λ G is the number of
// critical loads between 0 and λ while K is positive definite. A bracket of a
// load found that way holds what it promises; the quick iteration inside it
// only sharpens the number.
//
// All workspaces are made by the New functions; nothing is allocated after.
// Source: Bathe1996; Crisfield1981 (from memory).
package sym
