package cost

import (
	_ "embed"
	"sync"

	"costrel/cite"
)

//go:embed cards.txt
var cardText string

var cards = sync.OnceValue(func() []cite.Card { return cite.MustCards("plant/cost/cards.txt", cardText) })

// Prices returns the data card of prices, a fresh copy: change a datum and its
// source to price with your own.
func Prices() cite.Card {
	c := cards()[0]
	c.Data = append([]cite.Datum(nil), c.Data...)
	return c
}
