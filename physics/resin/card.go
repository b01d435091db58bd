package resin

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"

	"costrel/cite"
)

// base is the card whose values every PET grade inherits.
const base = "pet"

//go:embed cards.txt
var gradesText string

//go:embed compare.txt
var materialsText string

var gradeCards = sync.OnceValue(func() []cite.Card {
	return inherit(cite.MustCards("physics/resin/cards.txt", gradesText))
})

var materialCards = sync.OnceValue(func() []cite.Card {
	return cite.MustCards("physics/resin/compare.txt", materialsText)
})

// Cards returns the cards of the PET grades, each complete. The first, "pet",
// holds the values that the grades share.
func Cards() []cite.Card { return clone(gradeCards()) }

// MaterialCards returns the cards of HDPE, PP and glass.
func MaterialCards() []cite.Card { return clone(materialCards()) }

// Card returns the card of a PET grade or of a comparison material. The error
// lists the names there are.
func Card(name string) (cite.Card, error) {
	var names []string
	for _, all := range [][]cite.Card{gradeCards(), materialCards()} {
		for _, c := range all {
			if c.Name == name {
				c.Data = slices.Clone(c.Data)
				return c, nil
			}
			names = append(names, c.Name)
		}
	}
	return cite.Card{}, fmt.Errorf("resin: no card %q; there are %s", name, strings.Join(names, ", "))
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

func clone(cards []cite.Card) []cite.Card {
	out := make([]cite.Card, len(cards))
	for i, c := range cards {
		c.Data = slices.Clone(c.Data)
		out[i] = c
	}
	return out
}
