// Package drawdown maps the material of a preform to the wall of a bottle by
// mass conservation alone: a monotone map from the arc of the bottle to the
// mass of the preform, from the gate to the ledge.
//
// The map passes through the weights of the sections between cut planes,
// given as targets or by a published rule of thumb; or it stretches the
// preform evenly along its length. Wall, hoop stretch (inside, mid-wall,
// outside), axial and planar stretch follow at every station.
//
// It knows nothing of temperature, pressure, timing, friction or the material:
// where the material goes is what was asked, not what would happen.
package drawdown
