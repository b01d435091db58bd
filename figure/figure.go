// Package figure holds the number that reaches a screen, a report or JSON: a
// value with its unit, its band and its origin.
package figure

import (
	"math"

	"costrel/unit"
)

// OriginKind says where a number comes from.
type OriginKind string

// The kinds of origin.
const (
	Given     OriginKind = "given"           // written in the design
	Default   OriginKind = "default"         // from the template of the pack class
	Assumed   OriginKind = "assumed"         // chosen by the program, no better knowledge
	Published OriginKind = "published"       // from a named source
	Practice  OriginKind = "common practice" // the trade's habit, no source
	Computed  OriginKind = "computed"        // by a method from inputs
	Measured  OriginKind = "measured"        // from a lab record
)

// Input is one number that went into a computed figure. Key is the key of
// another figure or, with the prefix "design:", a path in the design.
type Input struct {
	Key    string     `json:"key"`
	Symbol string     `json:"symbol"`
	Label  string     `json:"label"`
	Value  float64    `json:"value"` // SI
	Kind   unit.Kind  `json:"quantity"`
	Origin OriginKind `json:"kind"`
	Source string     `json:"source,omitempty"`
}

// Origin tells how a number came about.
type Origin struct {
	Kind     OriginKind `json:"kind"`
	Method   string     `json:"method"`             // name of the method, in words
	Equation string     `json:"equation,omitempty"` // with the symbols of Inputs
	Sources  []string   `json:"sources"`            // keys in cite
	Inputs   []Input    `json:"inputs"`
	Warnings []string   `json:"warnings"`
	Theory   string     `json:"theory,omitempty"` // page under docs/theory
}

// Effect is one contribution to the band of a figure: what the figure moves
// when one uncertain input moves to the ends of its range.
type Effect struct {
	Path  string  `json:"path"`
	Label string  `json:"label"`
	Low   float64 `json:"low"`  // change of the figure, SI
	High  float64 `json:"high"` // change of the figure, SI
	Basis string  `json:"basis"`
}

// Figure is a number with its unit, band and origin.
type Figure struct {
	Key     string    // stable and dotted: "preform.mass"
	Label   string    // in words
	Value   float64   // SI
	Kind    unit.Kind // what it measures
	Unit    string    // display unit; empty = the preferred unit of the kind
	Lo, Hi  float64   // 95 % band, SI
	Effects []Effect  // what makes the band, largest first
	Banding string    // how the band was made, in words; empty where it is not said
	Origin  Origin
}

// Size returns how much of a band an effect makes: the root of the squares of
// what it adds above and below, as the band adds up.
func (e Effect) Size() float64 {
	return math.Hypot(max(e.Low, e.High, 0), min(e.Low, e.High, 0))
}
