package energy

import (
	_ "embed"
	"sync"

	"costrel/cite"
)

//go:embed cards.txt
var cardText string

var cards = sync.OnceValue(func() []cite.Card { return cite.MustCards("plant/energy/cards.txt", cardText) })

// Machines returns the data card of machine efficiencies and specific
// energies, a fresh copy.
func Machines() cite.Card {
	c := cards()[0]
	c.Data = append([]cite.Datum(nil), c.Data...)
	return c
}
