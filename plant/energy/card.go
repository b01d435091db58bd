package energy

import (
	_ "embed"

	"costrel/cite"
)

//go:embed cards.txt
var cardText string

var deck = cite.NewDeck("plant/energy/cards.txt", cardText)

// Machines returns the data card of machine efficiencies and specific
// energies, a fresh copy.
func Machines() cite.Card { return deck.Card("machines") }
