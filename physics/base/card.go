package base

import (
	_ "embed"

	"costrel/cite"
)

//go:embed cards.txt
var cardsText string

var deck = cite.NewDeck("physics/base/cards.txt", cardsText)

// Cards returns the data of this package: strap factor, threshold of cracking,
// rules of thumb.
func Cards() []cite.Card { return deck.Cards() }

// datum returns one value of a card; the keys are tested.
func datum(card, key string) cite.Datum { return deck.Datum(card, key) }

// StrapFactor returns the stress of a strap over that of the plain hemisphere
// [1], with its range. Low confidence.
func StrapFactor() cite.Datum { return datum("strap", "factor") }

// CrackThreshold returns the stress below which unoriented polyester hardly
// crazes in caustic [Pa], with its range. Low confidence.
func CrackThreshold() cite.Datum { return datum("crack", "threshold") }
