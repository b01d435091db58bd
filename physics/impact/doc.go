// Package impact ranks how a filled pack stands a drop, and reads the height
// at which half the packs fail from the drops of a laboratory.
//
// A pack that lands on its base stops its wall at once and its liquid by a
// pressure wave: fluid hammer (Joukowsky1900) at the wave speed of a liquid in
// an elastic tube (Korteweg1878). Pressure pulses in dropped bottles follow it
// better than they follow a mass on a spring (KaracIvankovic2009). The wave
// stretches the wall on top of the stress of a carbonated drink.
//
// What makes a pack fail (a cold gate of low viscosity, a seam of thin wall, a
// corner, the floor) is known far less well. Every index here is an estimate:
// ranking only. It compares designs of one family; it promises no height. The
// up-and-down test at the end of the package is what sets a height.
package impact

// Ranking is the label that every index of this package carries.
const Ranking = "estimate: ranking only"
