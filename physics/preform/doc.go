// Package preform holds the noun Preform: the injection-moulded tube with a
// round end below the support ledge of its finish.
//
// It gives volume and mass by revolution, the wall and radii along the
// mid-line from the gate to the ledge, the cumulative mass along it and its
// inverse, the stretch ratios to a bottle, each with its definition, and the
// usual rules of preform design as verdicts.
//
// Arc length S counts along the middle of the wall from the gate (S = 0 on the
// axis) to the ledge. Lengths are in m, masses in kg, densities in kg/m³.
package preform
