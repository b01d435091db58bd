package resin

import (
	"math"
	"strings"
	"testing"

	"costrel/cite"
	"costrel/unit"
)

func TestGrades(t *testing.T) {
	var names []string
	for _, g := range Grades() {
		names = append(names, g.Name)
	}
	if got, want := strings.Join(names, " "), "pet-carbonated pet-water pet-hotfill pet-recycled"; got != want {
		t.Errorf("grades %q, want %q", got, want)
	}
	g, err := Find("pet-carbonated")
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(g.IV-0.080) > 1e-12 {
		t.Errorf("IV %g m³/kg, want 0.080", g.IV)
	}
	if g.Tg != unit.Celsius(78) || g.ModulusAmorphous != 2.2e9 {
		t.Errorf("Tg %v K and modulus %g Pa are not inherited from the base card", g.Tg, g.ModulusAmorphous)
	}
	hot, err := Find("pet-hotfill")
	if err != nil {
		t.Fatal(err)
	}
	w, err := hot.Densities().VolumeFraction(hot.DensityWall)
	if err != nil || w < 0.28 || w > 0.32 {
		t.Errorf("crystallinity of the hot-fill wall %g (%v), want 0.28..0.32", w, err)
	}
	if _, err := Find("pet-blue"); err == nil || !strings.Contains(err.Error(), "pet-carbonated") {
		t.Errorf("unknown grade: %v, want an error that lists the names", err)
	}
}

func TestMaterials(t *testing.T) {
	for _, m := range Materials() {
		if m.Density <= 0 || m.Modulus <= 0 || m.Strength <= 0 {
			t.Errorf("%s: density %g, modulus %g, strength %g", m.Name, m.Density, m.Modulus, m.Strength)
		}
	}
	if _, err := NewMaterial(cite.Card{Name: "x"}); err == nil {
		t.Error("an empty card was read as a material")
	}
}

// A card handed out is the caller's own.
func TestCardsAreCopies(t *testing.T) {
	Cards()[1].Data[0].Value = -1
	if got := Cards()[1].Data[0].Value; got != 1335 {
		t.Errorf("embedded card changed to %g", got)
	}
}

func TestNewRefuses(t *testing.T) {
	change := func(key string, v float64) cite.Card {
		c, err := Card("pet-water")
		if err != nil {
			t.Fatal(err)
		}
		for i := range c.Data {
			if c.Data[i].Key == key {
				c.Data[i].Value = v
			}
		}
		return c
	}
	for key, v := range map[string]float64{
		"density_crystal": 1300,
		"density_wall":    1500,
		"tg":              600,
		"iv":              math.NaN(),
		"poisson":         -1,
	} {
		if _, err := New(change(key, v)); err == nil {
			t.Errorf("%s = %g was accepted", key, v)
		}
	}
	if _, err := New(cite.Card{Name: "x"}); err == nil || !strings.Contains(err.Error(), "lacks") {
		t.Errorf("empty card: %v", err)
	}
}
