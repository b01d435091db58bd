package resin

import (
	"fmt"
	"math"

	"costrel/cite"
	"costrel/unit"
)

// Grade is one PET grade. Values are SI; ranges and sources are in Card.
type Grade struct {
	Name, Title string
	Card        cite.Card

	DensityAmorphous float64 // kg/m³ at 23 °C
	DensityCrystal   float64 // kg/m³ at 23 °C, all crystal
	DensityWall      float64 // kg/m³, stretched wall
	DensityMelt      float64 // kg/m³ at 280 °C
	IV               float64 // m³/kg; 0.1 of the number in dL/g
	IVPreformMin     float64 // m³/kg, lowest value in the preform
	Comonomer        float64 // molar fraction
	RecycledShare    float64 // mass fraction

	Tg                 unit.Temperature
	Melting            unit.Temperature // peak of the melting curve
	MeltingEquilibrium unit.Temperature
	Softening          unit.Temperature // of the stretched wall
	HeatOfFusion       float64          // J/kg, all crystal
	HalfTime           float64          // s, shortest half-time of crystallisation from the glass

	Conductivity    float64 // W/(m K)
	ExpansionGlass  float64 // 1/K, linear
	ExpansionRubber float64 // 1/K, linear

	ModulusAmorphous float64 // Pa
	YieldAmorphous   float64 // Pa
	Poisson          float64

	RefractiveIndex float64
	Emissivity      float64
	Birefringence   float64 // of fully aligned chains
	MoistureLimit   float64 // mass fraction into the melt
}

// Grades returns the bottle grades of PET, without the base card.
func Grades() []Grade {
	var out []Grade
	for _, c := range Cards() {
		if c.Name == base {
			continue
		}
		g, err := New(c)
		if err != nil {
			panic(err) // an embedded card; tested
		}
		out = append(out, g)
	}
	return out
}

// Find returns the PET grade with the given name ("pet-carbonated").
func Find(name string) (Grade, error) {
	c, err := Card(name)
	if err != nil {
		return Grade{}, err
	}
	return New(c)
}

// New reads a PET grade from a card, which may be an embedded one or one whose
// values the user changed. It refuses a card that lacks a value, a value that
// is not finite, and an order of densities or temperatures that cannot be.
func New(c cite.Card) (Grade, error) {
	g := Grade{Name: c.Name, Title: c.Title, Card: c}
	var tg, tm, tm0, ts float64
	for _, f := range []struct {
		key string
		to  *float64
	}{
		{"density_amorphous", &g.DensityAmorphous},
		{"density_crystal", &g.DensityCrystal},
		{"density_wall", &g.DensityWall},
		{"density_melt", &g.DensityMelt},
		{"iv", &g.IV},
		{"iv_preform_min", &g.IVPreformMin},
		{"comonomer", &g.Comonomer},
		{"recycled_share", &g.RecycledShare},
		{"tg", &tg},
		{"melting", &tm},
		{"melting_equilibrium", &tm0},
		{"softening", &ts},
		{"heat_of_fusion", &g.HeatOfFusion},
		{"crystallisation_halftime", &g.HalfTime},
		{"conductivity", &g.Conductivity},
		{"expansion_glass", &g.ExpansionGlass},
		{"expansion_rubber", &g.ExpansionRubber},
		{"modulus_amorphous", &g.ModulusAmorphous},
		{"yield_amorphous", &g.YieldAmorphous},
		{"poisson", &g.Poisson},
		{"refractive_index", &g.RefractiveIndex},
		{"emissivity", &g.Emissivity},
		{"birefringence_intrinsic", &g.Birefringence},
		{"moisture_limit", &g.MoistureLimit},
	} {
		v, err := value(c, f.key)
		if err != nil {
			return Grade{}, err
		}
		*f.to = v
	}
	g.Tg, g.Melting = unit.Temperature(tg), unit.Temperature(tm)
	g.MeltingEquilibrium, g.Softening = unit.Temperature(tm0), unit.Temperature(ts)
	switch {
	case g.DensityAmorphous <= 0 || g.DensityCrystal <= g.DensityAmorphous:
		return Grade{}, fmt.Errorf("resin: %s: density %g kg/m³ of the crystal not above %g kg/m³ of the glass", c.Name, g.DensityCrystal, g.DensityAmorphous)
	case g.DensityWall < g.DensityAmorphous || g.DensityWall > g.DensityCrystal:
		return Grade{}, fmt.Errorf("resin: %s: wall density %g kg/m³ outside %g..%g kg/m³", c.Name, g.DensityWall, g.DensityAmorphous, g.DensityCrystal)
	case g.Tg >= g.Melting || g.Melting >= g.MeltingEquilibrium:
		return Grade{}, fmt.Errorf("resin: %s: want Tg < melting < equilibrium melting, have ‹%.1f, %.1f, %.1f °C›", c.Name, g.Tg.Celsius(), g.Melting.Celsius(), g.MeltingEquilibrium.Celsius())
	}
	return g, nil
}

// Diffusivity returns the thermal diffusivity k/(rho cp) [m²/s] of amorphous
// PET at a temperature, with the card's conductivity and density and the heat
// capacity of [HeatCapacity]. About 1.5e-7 in the glass and 1.0e-7 above.
func (g Grade) Diffusivity(t unit.Temperature) (float64, error) {
	cp, err := HeatCapacity(t)
	if err != nil {
		return 0, err
	}
	return g.Conductivity / (g.DensityAmorphous * cp), nil
}

// Densities returns the end points of the density scale of this grade.
func (g Grade) Densities() DensityPair {
	return DensityPair{Name: g.Name, Amorphous: g.DensityAmorphous, Crystal: g.DensityCrystal, Source: "DaubenyBunnBrown1954"}
}

// Material is a material that PET is compared with.
type Material struct {
	Name, Title string
	Card        cite.Card

	Density         float64 // kg/m³
	Modulus         float64 // Pa
	Poisson         float64
	Strength        float64 // Pa: tensile yield; for glass the strength of a handled surface
	Conductivity    float64 // W/(m K)
	HeatCapacity    float64 // J/(kg K)
	Expansion       float64 // 1/K, linear
	Softening       unit.Temperature
	RefractiveIndex float64
}

// Materials returns HDPE, PP and container glass.
func Materials() []Material {
	var out []Material
	for _, c := range MaterialCards() {
		m, err := NewMaterial(c)
		if err != nil {
			panic(err) // an embedded card; tested
		}
		out = append(out, m)
	}
	return out
}

// NewMaterial reads a comparison material from a card.
func NewMaterial(c cite.Card) (Material, error) {
	m := Material{Name: c.Name, Title: c.Title, Card: c}
	var ts float64
	for _, f := range []struct {
		key string
		to  *float64
	}{
		{"density", &m.Density},
		{"modulus", &m.Modulus},
		{"poisson", &m.Poisson},
		{"strength", &m.Strength},
		{"conductivity", &m.Conductivity},
		{"heat_capacity", &m.HeatCapacity},
		{"expansion", &m.Expansion},
		{"softening", &ts},
		{"refractive_index", &m.RefractiveIndex},
	} {
		v, err := value(c, f.key)
		if err != nil {
			return Material{}, err
		}
		*f.to = v
	}
	m.Softening = unit.Temperature(ts)
	return m, nil
}

func value(c cite.Card, key string) (float64, error) {
	d, ok := c.Get(key)
	if !ok {
		return 0, fmt.Errorf("resin: card %s lacks %s", c.Name, key)
	}
	if math.IsNaN(d.Value) || math.IsInf(d.Value, 0) || d.Value < 0 {
		return 0, fmt.Errorf("resin: card %s: %s = %g: want a finite value >= 0", c.Name, key, d.Value)
	}
	return d.Value, nil
}
