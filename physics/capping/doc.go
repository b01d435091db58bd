// Package capping computes how a closure holds on a neck: the force with which
// the gas lifts it, the force that the thread puts on the seal for a torque,
// what of it is left under pressure and after relaxation, when it leaks, when
// the thread lets go, and in which order band, seal and thread open.
//
// A screw closure is a bolted joint. Turning it on stretches the shell and
// presses the seal on the land; gas pressure then unloads the seal and loads
// the thread. Turning it off must break the bridges of the band first, then
// open the seal, and still have enough thread engaged to hold the closure
// while the gas leaves through the vent slots.
//
// The mechanics are those of power screws and bolted joints (Shigley1989). The
// numbers that decide leak and blow-off (stiffness share, holding stress,
// travels) are known poorly: every answer that uses one says so, and none
// replaces the pressure, opening and impact tests of the closure.
package capping
