package base

import (
	_ "embed"
	"sync"

	"costrel/cite"
)

//go:embed cards.txt
var cardsText string

var parsed = sync.OnceValue(func() []cite.Card { return cite.MustCards("physics/base/cards.txt", cardsText) })

// Cards returns the data of this package: strap factor, threshold of cracking,
// rules of thumb.
func Cards() []cite.Card {
	out := append([]cite.Card(nil), parsed()...)
	for i := range out {
		out[i].Data = append([]cite.Datum(nil), out[i].Data...)
	}
	return out
}

// datum returns one value of a card; the keys are tested.
func datum(card, key string) cite.Datum {
	for _, c := range parsed() {
		if c.Name == card {
			if d, ok := c.Get(key); ok {
				return d
			}
		}
	}
	panic("base: no datum " + card + "." + key)
}

// StrapFactor returns the stress of a strap over that of the plain hemisphere
// [1], with its range. Low confidence.
func StrapFactor() cite.Datum { return datum("strap", "factor") }

// CrackThreshold returns the stress below which unoriented polyester hardly
// crazes in caustic [Pa], with its range. Low confidence.
func CrackThreshold() cite.Datum { return datum("crack", "threshold") }
