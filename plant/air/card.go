package air

import (
	_ "embed"

	"costrel/cite"
)

//go:embed cards.txt
var cardText string

var deck = cite.NewDeck("plant/air/cards.txt", cardText)

// Cards returns the data cards of the package: "station" (dead volume,
// recovery, air state) and "compressor". They are fresh copies.
func Cards() []cite.Card { return deck.Cards() }

// Card returns the card of the given name.
func Card(name string) (cite.Card, bool) {
	c, err := deck.Find(name)
	return c, err == nil
}
