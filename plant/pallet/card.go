package pallet

import (
	_ "embed"

	"costrel/cite"
)

//go:embed cards.txt
var cardText string

var deck = cite.NewDeck("plant/pallet/cards.txt", cardText)

// Pallets returns the data cards of pallets, fresh copies.
func Pallets() []cite.Card { return deck.Cards() }
