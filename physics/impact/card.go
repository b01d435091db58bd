package impact

import (
	_ "embed"
	"fmt"

	"costrel/cite"
	"costrel/physics/bottle"
	"costrel/unit"
)

//go:embed cards.txt
var cardsText string

var deck = cite.NewDeck("physics/impact/cards.txt", cardsText)

// Cards returns the data of this package: factors of bases, rate and
// temperature, limits of the ranks. All of it is of low confidence.
func Cards() []cite.Card { return deck.Cards() }

// datum returns one value of a card; the keys are tested.
func datum(card, key string) cite.Datum { return deck.Datum(card, key) }

// Rigid is a base that takes the full hammer pressure: a bound for the others.
const Rigid bottle.BaseKind = "rigid"

// BaseFactor returns the share of the hammer pressure that acts on the wall
// above a kind of base [1], with its range. The empty kind is flat, as for a
// bottle. Low confidence.
func BaseFactor(kind bottle.BaseKind) (cite.Datum, error) {
	if kind == "" {
		kind = bottle.Flat
	}
	if d, ok := deck.Get("base", string(kind)); ok {
		return d, nil
	}
	return cite.Datum{}, fmt.Errorf("impact: base %q: choose flat, punt, petaloid, ribbed, hemisphere or rigid", string(kind))
}

// span is a factor with its range.
type span struct{ value, low, high float64 }

// Temperatures of the card, °C, and the range it answers for.
var temperatureNodes = [3]struct {
	celsius float64
	key     string
}{{0, ".0"}, {23, ".23"}, {40, ".40"}}

// atTemperature returns a factor of the temperature card by straight lines;
// 0..40 °C.
func atTemperature(what string, t unit.Temperature) (span, error) {
	c := t.Celsius()
	first, last := temperatureNodes[0].celsius, temperatureNodes[2].celsius
	const slack = 1e-9 // rounding of kelvin to Celsius
	if !(c >= first-slack && c <= last+slack) {
		return span{}, fmt.Errorf("impact: temperature ‹%.4g °C› outside ‹%g..%g °C›, where the factors of wall and gate are set", c, first, last)
	}
	i := 0
	if c > temperatureNodes[1].celsius {
		i = 1
	}
	a, b := temperatureNodes[i], temperatureNodes[i+1]
	from, to := datum("temperature", what+a.key), datum("temperature", what+b.key)
	x := (c - a.celsius) / (b.celsius - a.celsius)
	mix := func(u, v float64) float64 { return u + x*(v-u) }
	return span{mix(from.Value, to.Value), mix(from.Low, to.Low), mix(from.High, to.High)}, nil
}
