package shell

import (
	_ "embed"
	"sync"

	"costrel/cite"
)

//go:embed cards.txt
var cardsText string

var parsed = sync.OnceValue(func() []cite.Card { return cite.MustCards("physics/shell/cards.txt", cardsText) })

// Cards returns the data of this package: knock-downs, factors of the base,
// softening. Each value has its source and range.
func Cards() []cite.Card { return append([]cite.Card(nil), parsed()...) }

// datum returns one value of a card.
func datum(card, key string) cite.Datum {
	for _, c := range parsed() {
		if c.Name == card {
			if d, ok := c.Get(key); ok {
				return d
			}
		}
	}
	panic("shell: no datum " + card + "." + key)
}
