package run

import (
	"fmt"

	"costrel/figure"
	"costrel/physics/bottle"
	"costrel/physics/permeation"
	"costrel/physics/resin"
	"costrel/project/design"
	"costrel/unit"
)

// packGrowth returns how the pack of the shelf stage grows: PET by the modulus
// of the design, another plastic by that of its card, glass by its card without
// creep, metal not at all.
func packGrowth(d *design.Design, w *Wall) (permeation.Growth, error) {
	if d.Shelf.Material == "metal" {
		return permeation.Growth{}, nil
	}
	card, ok := stiffness(d)
	if !ok {
		return permeation.DefaultGrowth(w.Growth), nil
	}
	elastic, err := bottle.GrowthRate(w.PanelRadius, w.PanelMean, card.modulus, card.poisson, d.Shelf.ShapeShare)
	if err != nil {
		return permeation.Growth{}, fmt.Errorf("shelf.material %s: %w", d.Shelf.Material, err)
	}
	if tight(d) {
		return permeation.Growth{Elastic: elastic}, nil
	}
	return permeation.DefaultGrowth(elastic), nil
}

// stiff is the stiffness of a wall material that is no PET.
type stiff struct {
	modulus, poisson float64
	input            figure.Input
}

// stiffness returns that of the card of the wall material; ok is false for
// PET and its like, whose modulus the design gives.
func stiffness(d *design.Design) (stiff, bool) {
	switch d.Shelf.Material {
	case "glass", "hdpe", "pp":
	default:
		return stiff{}, false
	}
	card, err := resin.Card(d.Shelf.Material)
	if err != nil {
		return stiff{}, false
	}
	e, ok := card.Get("modulus")
	return stiff{e.Value, card.Value("poisson"), figure.Input{
		Key: "card:" + d.Shelf.Material + ".modulus", Symbol: "E", Label: card.Title + ": " + e.Label, Value: e.Value, Kind: e.Kind, Origin: figure.Practice, Source: e.Source,
	}}, ok
}

// modulus is the input of the growth that says how stiff the wall is.
func (s *shelfLife) modulus() figure.Input {
	if card, ok := stiffness(s.d); ok {
		return card.input
	}
	return s.given("E", "shelf.modulus")
}

// tight tells whether the wall passes and takes up nothing.
func tight(d *design.Design) bool {
	m, err := permeation.Named(d.Shelf.Material)
	return err == nil && m.Tight
}

func uselessCoating(d *design.Design) string {
	return "a coating on glass or metal changes nothing here; leave it out (shelf.material is " + d.Shelf.Material + ")"
}

// materialNotes says what in the shelf section does nothing, and what another
// material leaves unsaid.
func materialNotes(d *design.Design) []string {
	var out []string
	add := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	material, coated := d.Shelf.Material, d.Shelf.Coating != "none"
	switch {
	case coated && tight(d):
		add("shelf.coating: %s", uselessCoating(d))
	case coated && d.Shelf.Improve <= 1 && (d.Shelf.ImproveAir == nil || *d.Shelf.ImproveAir <= 1):
		add("shelf.coating: the coating does nothing while shelf.coating_improvement is %g; write how many times less the coated panel passes", d.Shelf.Improve)
	case !coated && d.Shelf.Improve > 1:
		add("shelf.coating_improvement: %g does nothing while shelf.coating is none; choose inner or outer", d.Shelf.Improve)
	}
	if d.Shelf.Scavenger > 0 && tight(d) {
		add("shelf.scavenger: %s lets no oxygen into the wall; the scavenger is left out", material)
	}
	switch {
	case material == "metal":
		add("shelf.material: metal is taken as rigid here; pressures, strength and wall on the board stay those of the PET design")
	case tight(d):
		add("shelf.material: %s as thin as this wall, without creep; pressures, strength and wall on the board stay those of the PET design", material)
	case material == "hdpe" || material == "pp":
		card, _ := stiffness(d)
		add("shelf.material: %s grows by its modulus of %s with the creep terms of PET, which creeps less; pressures, strength and wall on the board stay those of the PET design", material, unit.Quote(unit.Stress, card.modulus, 4))
	}
	return out
}

// thirst is the use of oxygen of a drink that takes all that comes in [1/s].
const thirst = 10 / day

// thirsty says how much oxygen a drink would take that consumes it, where the
// design leaves open whether this one does: what is not consumed holds back what
// comes after it.
func (s *shelfLife) thirsty(shown float64) string {
	if s.pc.Uptake.Rate > 0 {
		return ""
	}
	c := s.pc
	c.Uptake = permeation.Uptake{Rate: thirst}
	life, err := c.Run(s.end, sampledLife)
	if err != nil {
		return ""
	}
	p, err := life.At(s.end)
	if most := p.Ingress / s.d.Brief.Nominal; err == nil && most > 1.1*shown {
		rest := "what has come in stays and holds back the rest, up to balance with the air"
		if shown < 0 {
			rest = "none is used up inside, and what was closed in goes out"
		}
		return "drink.oxygen_use is 0: " + rest + ". A drink that consumes its oxygen at once takes up " + unit.Format(unit.Concentration, most, "mg/L", 3) + "; hold that against a limit for juice, tea or beer, or write the rate"
	}
	return ""
}
