// Package energy adds up what a bottle takes in energy: the heat of the oven,
// the lamps, high-pressure air, drives, cooling, drying and preform moulding.
// One [Line] is one consumer; [Sum] totals them and converts to 1000 bottles.
//
// The heat content of PET comes from the resin and is passed in: this package
// knows machines, not polymers.
package energy
