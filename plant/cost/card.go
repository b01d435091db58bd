package cost

import (
	_ "embed"

	"costrel/cite"
)

//go:embed cards.txt
var cardText string

var deck = cite.NewDeck("plant/cost/cards.txt", cardText)

// Prices returns the data card of prices, a fresh copy: change a datum and its
// source to price with your own.
func Prices() cite.Card { return deck.Card("prices") }
