package api

import (
	"context"
	"maps"
	"slices"

	"costrel/cite"
	"costrel/physics/base"
	"costrel/physics/climate"
	"costrel/physics/closure"
	"costrel/physics/finish"
	"costrel/physics/hotfill"
	"costrel/physics/impact"
	"costrel/physics/inject"
	"costrel/physics/oven"
	"costrel/physics/permeation"
	"costrel/physics/preform"
	"costrel/physics/resin"
	"costrel/physics/shell"
	"costrel/plant/air"
	"costrel/plant/cost"
	"costrel/plant/energy"
	"costrel/plant/footprint"
	"costrel/plant/pallet"
	"costrel/unit"
)

// DataCard is a card of built-in data as shown, each value in the unit of its card.
type DataCard struct {
	Shelf string    `json:"shelf" doc:"What the card is about"`
	Name  string    `json:"name"`
	Title string    `json:"title"`
	Data  []DataRow `json:"data"`
}

// DataRow is one value of a card.
type DataRow struct {
	Key        string `json:"key"`
	Label      string `json:"label"`
	Display    string `json:"display"`
	Low        string `json:"low"`
	High       string `json:"high"`
	Source     string `json:"source" doc:"Key of a source"`
	Confidence string `json:"confidence"`
	Note       string `json:"note"`
}

// shelves lists all cards by what they are about.
func shelves() []struct {
	name  string
	cards []cite.Card
} {
	byName := func(m map[string]cite.Card) []cite.Card {
		out := make([]cite.Card, 0, len(m))
		for _, k := range slices.Sorted(maps.Keys(m)) {
			out = append(out, m[k])
		}
		return out
	}
	return []struct {
		name  string
		cards []cite.Card
	}{
		{"Resins", resin.Cards()},
		{"Materials of the preform and the wall", resin.MaterialCards()},
		{"Injection", byName(inject.Cards())},
		{"Oven", byName(oven.Cards())},
		{"Finishes", finish.Cards()},
		{"Closures", closure.Cards()},
		{"Permeation", permeation.Cards()},
		{"Climate lanes", climate.Cards()},
		{"Strength of the wall", shell.Cards()},
		{"Bases", base.Cards()},
		{"Impact", impact.Cards()},
		{"Hot fill", []cite.Card{hotfill.Defaults()}},
		{"Rules of preform and stretch", byName(preform.RuleCards())},
		{"Blowing air", air.Cards()},
		{"Energy of the machines", []cite.Card{energy.Machines()}},
		{"Prices", []cite.Card{cost.Prices()}},
		{"Footprint", []cite.Card{footprint.Factors()}},
		{"Pallets", pallet.Pallets()},
	}
}

type cardsOut struct {
	Body struct {
		Cards []DataCard `json:"cards"`
	}
}

// cards returns the built-in data with sources and confidence.
func (s *Server) cards(context.Context, *struct{}) (*cardsOut, error) {
	out := &cardsOut{}
	out.Body.Cards = []DataCard{}
	for _, shelf := range shelves() {
		for _, c := range shelf.cards {
			card := DataCard{Shelf: shelf.name, Name: c.Name, Title: c.Title, Data: []DataRow{}}
			for _, d := range c.Data {
				show := func(v float64) string { return unit.Format(d.Kind, v, d.Unit, 4) }
				card.Data = append(card.Data, DataRow{
					Key: d.Key, Label: d.Label, Display: show(d.Value), Low: show(d.Low), High: show(d.High),
					Source: d.Source, Confidence: d.Confidence, Note: d.Note,
				})
			}
			out.Body.Cards = append(out.Body.Cards, card)
		}
	}
	return out, nil
}
