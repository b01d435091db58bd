package footprint

import (
	_ "embed"
	"sync"

	"costrel/cite"
)

//go:embed cards.txt
var cardText string

var cards = sync.OnceValue(func() []cite.Card { return cite.MustCards("plant/footprint/cards.txt", cardText) })

// Factors returns the data card of emission factors, a fresh copy: change a datum and its
// source to count with your own.
func Factors() cite.Card {
	c := cards()[0]
	c.Data = append([]cite.Datum(nil), c.Data...)
	return c
}
