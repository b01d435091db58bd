package shell

import (
	_ "embed"

	"costrel/cite"
)

//go:embed cards.txt
var cardsText string

var deck = cite.NewDeck("physics/shell/cards.txt", cardsText)

// Cards returns the data of this package: knock-downs, factors of the base,
// softening. Each value has its source and range.
func Cards() []cite.Card { return deck.Cards() }

// datum returns one value of a card.
func datum(card, key string) cite.Datum { return deck.Datum(card, key) }
