package hotfill

import (
	_ "embed"

	"costrel/cite"
)

//go:embed cards.txt
var cardText string

var deck = cite.NewDeck("physics/hotfill/cards.txt", cardText)

// Defaults returns the data card of habitual values, a fresh copy.
func Defaults() cite.Card { return deck.Card("hotfill") }
