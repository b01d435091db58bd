package air

import (
	_ "embed"
	"sync"

	"costrel/cite"
)

//go:embed cards.txt
var cardText string

var cards = sync.OnceValue(func() []cite.Card { return cite.MustCards("plant/air/cards.txt", cardText) })

// Cards returns the data cards of the package: "station" (dead volume,
// recovery, air state) and "compressor". They are fresh copies.
func Cards() []cite.Card {
	out := make([]cite.Card, 0, len(cards()))
	for _, c := range cards() {
		c.Data = append([]cite.Datum(nil), c.Data...)
		out = append(out, c)
	}
	return out
}

// Card returns the card of the given name.
func Card(name string) (cite.Card, bool) {
	for _, c := range Cards() {
		if c.Name == name {
			return c, true
		}
	}
	return cite.Card{}, false
}
