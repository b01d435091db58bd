package pallet

import (
	_ "embed"
	"sync"

	"costrel/cite"
)

//go:embed cards.txt
var cardText string

var cards = sync.OnceValue(func() []cite.Card { return cite.MustCards("plant/pallet/cards.txt", cardText) })

// Pallets returns the data cards of pallets, fresh copies.
func Pallets() []cite.Card {
	out := make([]cite.Card, 0, len(cards()))
	for _, c := range cards() {
		c.Data = append([]cite.Datum(nil), c.Data...)
		out = append(out, c)
	}
	return out
}
