package footprint

import (
	_ "embed"

	"costrel/cite"
)

//go:embed cards.txt
var cardText string

var deck = cite.NewDeck("plant/footprint/cards.txt", cardText)

// Factors returns the data card of emission factors, a fresh copy: change a datum and its
// source to count with your own.
func Factors() cite.Card { return deck.Card("factors") }
