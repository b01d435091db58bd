package closure

import (
	_ "embed"
	"fmt"
	"math"
	"slices"

	"costrel/cite"
	"costrel/unit"
)

// base is the card whose values every closure inherits.
const base = "common"

//go:embed cards.txt
var cardsText string

var deck = cite.NewDeck("physics/closure/cards.txt", cardsText, inherit)

// Cards returns the data cards of the closures, each complete.
func Cards() []cite.Card { return deck.Cards() }

// inherit completes each card with the values of the base card that it does
// not name itself, and drops the base card.
func inherit(all []cite.Card) []cite.Card {
	var root cite.Card
	for _, c := range all {
		if c.Name == base {
			root = c
		}
	}
	var out []cite.Card
	for _, c := range all {
		if c.Name == base {
			continue
		}
		full := cite.Card{Name: c.Name, Title: c.Title, Data: slices.Clone(c.Data)}
		for _, d := range root.Data {
			if _, own := c.Get(d.Key); !own {
				full.Data = append(full.Data, d)
			}
		}
		out = append(out, full)
	}
	return out
}

// Window is a value with the range it should stay in, SI.
type Window struct{ Low, Value, High float64 }

// Closure is one closure. Values are SI; ranges and sources are in Card.
type Closure struct {
	Name, Title string
	Card        cite.Card

	Mass                       float64 // kg
	HDPE, PP, Aluminium, Liner float64 // mass shares; they sum to 1
	Tethered                   bool    // stays on the neck when open
	Plug                       bool    // seals with a plug in the bore
	OuterOD, Height            float64 // m; 0 = not known

	ThreadOD float64 // m, T of the finish it fits
	Pitch    float64 // m
	Starts   int
	SealOD   float64 // m, diameter the gas presses on

	CO2, O2, N2      float64          // mol/(s Pa) of the whole closure at Reference
	Water            float64          // kg/(s Pa) of the whole closure
	Reference        unit.Temperature // of the conductances
	ActivationEnergy float64          // J/mol, of the gas conductances

	ThreadFriction, SealFriction float64
	Application                  Window  // N·m
	Removal                      Window  // N·m, after 24 h
	ForceRetained                float64 // seal force left after relaxation, fraction
	SealShare                    float64 // part of the lift force that the seal loses
	SealForceMin                 float64 // N, to stay tight
	SealTravel                   float64 // m, rise to seal release
	BandTravel                   float64 // m, rise to the first broken bridge
	Bridges                      int     // 0 = no tamper band
	BridgeArea                   float64 // m², one bridge
	BridgeShear                  float64 // Pa
	BandRadius                   float64 // m
	BandDrag                     float64 // N·m, lost to the band while applying
	PlugDrag                     float64 // N·m, to break the plug loose
	HoldingStress                float64 // Pa, thread holding force over engaged thread area
}

// All returns the closures.
func All() []Closure { return cite.Each(deck, New) }

// Names returns the names of the closures.
func Names() []string { return deck.Names() }

// Find returns the closure with the given name ("hdpe-28-short"). The error
// lists the names there are.
func Find(name string) (Closure, error) {
	c, err := deck.Find(name)
	if err != nil {
		return Closure{}, err
	}
	return New(c)
}

// LowConfidence returns the keys of the card whose values are marked with low
// confidence.
func (c Closure) LowConfidence() []string { return c.Card.LowConfidence() }

// Fits reports whether the closure belongs on a thread of the given outside
// diameter and pitch [m] and number of starts: 0.3 mm on the diameter, 3 % on
// the pitch, the same starts. The error names what does not agree.
func (c Closure) Fits(threadOD, pitch float64, starts int) error {
	switch {
	case !(math.Abs(threadOD-c.ThreadOD) <= 0.3e-3):
		return fmt.Errorf("closure: %s: thread ‹%.2f mm› does not fit ‹%.2f mm› (‹0.3 mm› allowed)", c.Name, c.ThreadOD*1e3, threadOD*1e3)
	case !(math.Abs(pitch-c.Pitch) <= 0.03*c.Pitch):
		return fmt.Errorf("closure: %s: pitch ‹%.3f mm› does not fit ‹%.3f mm› (3 %% allowed)", c.Name, c.Pitch*1e3, pitch*1e3)
	case starts != c.Starts:
		return fmt.Errorf("closure: %s: %d starts do not fit %d", c.Name, c.Starts, starts)
	}
	return nil
}
