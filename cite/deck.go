package cite

import (
	"fmt"
	"path"
	"slices"
	"strings"
	"sync"
)

// Deck is the set of data cards that a package embeds. It reads its text when
// a card is first asked for and hands out copies, so that no caller changes
// the data of another.
type Deck struct {
	owner string // package the cards belong to, for messages
	read  func() deck
}

// deck is a deck as read.
type deck struct {
	cards []Card
	names []string
	at    map[string]int // place of a name
}

// NewDeck returns the deck of an embedded file; text is what [ParseCards]
// reads. The file is named from the root of the module ("physics/finish/cards.txt"):
// its folder is the name by which messages call the owner. Each function of
// then, in order, turns the cards as read into those of the deck: what completes
// a card from a common one stands there. A fault in the text panics at the first
// use, as [MustCards] does.
func NewDeck(file, text string, then ...func([]Card) []Card) *Deck {
	return &Deck{
		owner: path.Base(path.Dir(file)),
		read: sync.OnceValue(func() deck {
			d := deck{cards: MustCards(file, text), at: map[string]int{}}
			for _, f := range then {
				d.cards = f(d.cards)
			}
			for i, c := range d.cards {
				d.names = append(d.names, c.Name)
				d.at[c.Name] = i
			}
			return d
		}),
	}
}

// Cards returns the cards in the order of the file.
func (d *Deck) Cards() []Card {
	out := slices.Clone(d.read().cards)
	for i := range out {
		out[i].Data = slices.Clone(out[i].Data)
	}
	return out
}

// ByName returns the cards under their names.
func (d *Deck) ByName() map[string]Card {
	out := map[string]Card{}
	for _, c := range d.Cards() {
		out[c.Name] = c
	}
	return out
}

// Names returns the names of the cards in the order of the file.
func (d *Deck) Names() []string { return slices.Clone(d.read().names) }

// Find returns the card with the given name. The error lists the names there
// are.
func (d *Deck) Find(name string) (Card, error) {
	i, ok := d.read().at[name]
	if !ok {
		return Card{}, fmt.Errorf("%s: no card %q; there are %s", d.owner, name, strings.Join(d.read().names, ", "))
	}
	c := d.read().cards[i]
	c.Data = slices.Clone(c.Data)
	return c, nil
}

// Card returns the card with the given name. It panics when there is none: a
// deck is embedded and what the code asks of it is tested.
func (d *Deck) Card(name string) Card {
	c, err := d.Find(name)
	if err != nil {
		panic(err)
	}
	return c
}

// Get returns one datum of a card.
func (d *Deck) Get(card, key string) (Datum, bool) {
	i, ok := d.read().at[card]
	if !ok {
		return Datum{}, false
	}
	return d.read().cards[i].Get(key)
}

// Datum returns one datum of a card. It panics when there is none, as
// [Deck.Card] does.
func (d *Deck) Datum(card, key string) Datum {
	v, ok := d.Get(card, key)
	if !ok {
		panic(d.owner + ": no datum " + card + "." + key)
	}
	return v
}

// Each returns what of makes of each card of the deck. It panics on an error:
// the cards are embedded and tested.
func Each[T any](d *Deck, of func(Card) (T, error)) []T {
	var out []T
	for _, c := range d.Cards() {
		v, err := of(c)
		if err != nil {
			panic(err)
		}
		out = append(out, v)
	}
	return out
}
