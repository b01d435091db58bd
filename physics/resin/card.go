package resin

import (
	_ "embed"
	"fmt"
	"strings"

	"costrel/cite"
)

// base is the card whose values every PET grade inherits.
const base = "pet"

//go:embed cards.txt
var gradesText string

//go:embed compare.txt
var materialsText string

var (
	grades    = cite.NewDeck("physics/resin/cards.txt", gradesText, inherit)
	materials = cite.NewDeck("physics/resin/compare.txt", materialsText)
)

// Cards returns the cards of the PET grades, each complete. The first, "pet",
// holds the values that the grades share.
func Cards() []cite.Card { return grades.Cards() }

// MaterialCards returns the cards of HDPE, PP and glass.
func MaterialCards() []cite.Card { return materials.Cards() }

// Card returns the card of a PET grade or of a comparison material. The error
// lists the names there are.
func Card(name string) (cite.Card, error) {
	c, err := grades.Find(name)
	if err == nil {
		return c, nil
	}
	if c, m := materials.Find(name); m == nil {
		return c, nil
	}
	return cite.Card{}, fmt.Errorf("%w, %s", err, strings.Join(materials.Names(), ", "))
}

// inherit completes each card with the values of the base card that it does
// not name itself, in the order of the base card.
func inherit(cards []cite.Card) []cite.Card {
	var root cite.Card
	for _, c := range cards {
		if c.Name == base {
			root = c
		}
	}
	out := make([]cite.Card, 0, len(cards))
	for _, c := range cards {
		if c.Name == base {
			out = append(out, c)
			continue
		}
		full := cite.Card{Name: c.Name, Title: c.Title}
		for _, d := range root.Data {
			if own, ok := c.Get(d.Key); ok {
				d = own
			}
			full.Data = append(full.Data, d)
		}
		for _, d := range c.Data {
			if _, ok := root.Get(d.Key); !ok {
				full.Data = append(full.Data, d)
			}
		}
		out = append(out, full)
	}
	return out
}
