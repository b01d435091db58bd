// Package inject estimates the moulding of a preform: cooling, cycle, filling,
// clamping, what the melt does to the resin (acetaldehyde, chain length), and
// the size of a preform for a bottle.
//
// The rules of preform design themselves, with their ranges, are in
// costrel/physics/preform; this package adds those of the mould.
//
// Melt at 280 °C and 100 MPa burns and sprays; clamps crush. An estimate
// replaces no machine manual.
package inject
