package closure

import (
	"math"

	"costrel/cite"
	"costrel/unit"
)

// Checks returns the published checks of this package.
func Checks() []cite.Check {
	const airO2 = 0.2095 * 101325 // Pa
	perDay := func(molPerS float64) float64 {
		v, err := unit.Parse(unit.GasConductance, "1 cm³/(d·atm)")
		if err != nil {
			return math.NaN()
		}
		// One atmosphere of difference makes cm³/d of a conductance.
		return molPerS / (v.SI * float64(unit.Atm))
	}
	disc := func(film string) func() float64 {
		return func() float64 {
			p, err := unit.Parse(unit.Permeability, film)
			if err != nil {
				return math.NaN()
			}
			k, err := Disc(p.SI, 0.025, 1.25e-3, 1.5)
			if err != nil {
				return math.NaN()
			}
			return perDay(k * float64(unit.Atm))
		}
	}
	k := func(name string, g Gas, celsius float64) float64 {
		c, err := Find(name)
		if err != nil {
			return math.NaN()
		}
		v, err := c.Conductance(g, unit.Celsius(celsius))
		if err != nil {
			return math.NaN()
		}
		return v
	}
	return append(masses(), []cite.Check{
		{
			ID: "closure.o2.air", Case: "oxygen that a one-piece closure lets in from air at 23 °C", Source: "CommonPractice",
			Unit: "cm³/d", Ours: func() float64 { return perDay(k("hdpe-28-short", O2, 23) * airO2) }, Published: 0.0073, Allowed: 0.0001, Mark: cite.Regression,
		},
		{
			ID: "closure.o2.market", Case: "the same against the survey of market closures, 0.01 to 0.25 cm³/d", Source: "GasworldClosure",
			Unit: "cm³/d", Ours: func() float64 { return perDay(k("hdpe-28-short", O2, 23) * airO2) }, Published: 0.13, Allowed: 0.12, Mark: cite.Independent,
			Note:  "the middle of the survey's range and half its width",
			Known: "the default is chosen from film data and a wall-to-closure split of 80:20, and lies a little below the lowest closure of the survey, whose kinds and sizes are not stated",
		},
		{
			ID: "closure.co2.soda", Case: "CO2 that a one-piece closure lets out at 4.8 atm and 23 °C", Source: "CommonPractice",
			Unit: "cm³/d", Ours: func() float64 { return perDay(k("hdpe-28-short", CO2, 23) * 4.8 * float64(unit.Atm)) }, Published: 0.5, Allowed: 0.05, Mark: cite.Regression,
			Note: "printed as 0.5; the card gives 0.53",
		},
		{
			ID: "closure.co2.disc.low", Case: "CO2 conductance of a 25 mm HDPE disc of 1.25 mm, film at 138 cc·mm/(m²·d·atm), times 1.5", Source: "BiosystemsPackaging",
			Unit: "cm³/(d·atm)", Ours: disc("138 cc·mm/(m²·d·atm)"), Published: 0.08, Allowed: 0.005, Mark: cite.Regression,
		},
		{
			ID: "closure.co2.disc.high", Case: "the same, film at 236 cc·mm/(m²·d·atm)", Source: "BiosystemsPackaging",
			Unit: "cm³/(d·atm)", Ours: disc("236 cc·mm/(m²·d·atm)"), Published: 0.14, Allowed: 0.005, Mark: cite.Regression,
		},
		{
			ID: "closure.co2.film", Case: "CO2 conductance of the one-piece card against the disc of HDPE film, 0.08 to 0.14", Source: "BiosystemsPackaging",
			Unit: "cm³/(d·atm)", Ours: func() float64 { return perDay(k("hdpe-28-short", CO2, 23) * float64(unit.Atm)) }, Published: 0.11, Allowed: 0.03, Mark: cite.Regression,
			Note: "the middle of the range and half its width; the card was chosen inside it, so the row guards the card and shows no more",
		},
	}...)
}

// masses are the rows of the closures: the card against the range of the trade,
// its middle published and half of it allowed.
func masses() []cite.Check {
	mass := func(name string) func() float64 {
		return func() float64 {
			c, err := Find(name)
			if err != nil {
				return math.NaN()
			}
			return c.Mass * 1e3
		}
	}
	var out []cite.Check
	for _, c := range []struct {
		id, card, name string
		from, to       float64 // g
		confidence     string
	}{
		{"28-short", "hdpe-28-short", "short 28 mm closure, 2.2 to 2.5 g", 2.2, 2.5, "medium"},
		{"28-tall", "hdpe-28-tall", "tall 28 mm closure, 3.0 to 3.2 g", 3.0, 3.2, "medium"},
		{"29", "hdpe-29-still", "29 mm closure, 1.2 to 1.5 g", 1.2, 1.5, "low"},
		{"38", "hdpe-38-hotfill", "38 mm closure, 3.0 to 3.5 g", 3.0, 3.5, "low"},
	} {
		out = append(out, cite.Check{
			ID: "closure.mass." + c.id, Case: "mass of the " + c.name, Source: "CommonPractice", Unit: "g", Mark: cite.Memory,
			Ours: mass(c.card), Published: (c.from + c.to) / 2, Allowed: (c.to-c.from)/2 + 1e-9,
			Note: c.confidence + " confidence, from memory: the range of the trade, the card against its middle",
		})
	}
	return append(out, cite.Check{
		ID: "closure.mass.26", Case: "mass saved by the 26 mm closure against the short 28 mm one, up to 0.5 g", Source: "PackagingNews26", Unit: "g", Mark: cite.Regression,
		Ours: func() float64 { return mass("hdpe-28-short")() - mass("hdpe-26-still")() }, Published: 0.5, Allowed: 0.005,
		Note: "low confidence: the announcement gives an upper bound; the card takes it",
	})
}
