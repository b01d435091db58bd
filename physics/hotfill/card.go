package hotfill

import (
	_ "embed"
	"sync"

	"costrel/cite"
)

//go:embed cards.txt
var cardText string

var cards = sync.OnceValue(func() []cite.Card { return cite.MustCards("physics/hotfill/cards.txt", cardText) })

// Defaults returns the data card of habitual values, a fresh copy.
func Defaults() cite.Card {
	c := cards()[0]
	c.Data = append([]cite.Datum(nil), c.Data...)
	return c
}
