package inject

import (
	_ "embed"
	"fmt"
	"math"

	"costrel/cite"
)

//go:embed cards.txt
var cardsText string

var deck = cite.NewDeck("physics/inject/cards.txt", cardsText)

// Cards returns the data of preform moulding: "cooling", "filling", "gate",
// "drying", "aldehyde", "viscosity".
func Cards() map[string]cite.Card { return deck.ByName() }

// Range is an estimate with the ends between which practice lies. SI.
type Range struct{ Low, Value, High float64 }

// datum returns a datum of the cards as a range.
func datum(card, key string) Range {
	d := deck.Datum(card, key)
	return Range{d.Low, d.Value, d.High}
}

// within refuses a value outside lo..hi.
func within(op, name string, v, lo, hi, scale float64, unit string) error {
	if !(v >= lo && v <= hi) || math.IsInf(v, 0) {
		return fmt.Errorf("inject: %s: %s ‹%.4g %s› outside ‹%g..%g %s›", op, name, v*scale, unit, lo*scale, hi*scale, unit)
	}
	return nil
}
