// Package oven reheats a preform: lamps, the spectrum that the wall absorbs,
// air, gaps and soak, to the temperature through the wall and along the
// preform at the moment of blowing.
//
// Radiation goes from line-like lamps to axial slices of the spinning preform
// (view.go), in bands (planck.go, band.go), into finite volumes across the
// wall (costrel/num/conduct). Build an [Oven] with [New], ask it for [Oven.Run]
// or [Oven.Scale]; [Imposed] makes the same temperature field from a process
// card without any oven.
//
// Surfaces and lamps burn: lamp filaments run above 2000 K, and a hot preform
// sticks to skin. What is computed here replaces no guard and no measurement.
package oven
