package permeation

import (
	_ "embed"
	"fmt"
	"math"

	"costrel/cite"
	"costrel/unit"
)

//go:embed cards.txt
var cardText string

var deck = cite.NewDeck("physics/permeation/cards.txt", cardText)

// Cards returns all data cards of the package, fresh copies: the materials,
// "presets" and "bands".
func Cards() []cite.Card { return deck.Cards() }

// Presets returns the card of factors on the diffusivity of the wall.
func Presets() cite.Card { return deck.Card("presets") }

// Bands returns the card of uncertainties that a study draws from.
func Bands() cite.Card { return deck.Card("bands") }

// Henry is a gas that follows Henry's law in the wall.
type Henry struct {
	Permeability Arrhenius // [mol·m/(m²·s·Pa)]
	Diffusivity  Arrhenius // [m²/s]
}

// Solubility returns P/D at T [mol/(m³·Pa)].
func (h Henry) Solubility(t unit.Temperature) float64 {
	return h.Permeability.At(t) / h.Diffusivity.At(t)
}

// Material is a wall material for the gases of a drink and water.
type Material struct {
	Name     string
	Title    string
	CO2      DualMode
	Oxygen   Henry
	Nitrogen Henry
	Water    Arrhenius // [kg·m/(m²·s·Pa)]
	// Tight is a material that passes and takes up nothing: glass, metal. The
	// rest is then empty.
	Tight bool
}

// The warm end of what the constants of the cards rest on: activation energies
// of bottles were measured from 5 to 55 °C (BrewingScience2011), sorption at
// room temperature; near the glass transition the wall loosens and passes more
// than any of them says. The two distances are chosen for this project.
const (
	WarmEnd = unit.Temperature(333.15) // 60 °C
	belowTg = 10                       // K
)

// Warm returns the temperature from which on the constants of the material are
// carried on beyond what they rest on: 60 °C, or 10 K below its glass
// transition where that is lower; +Inf for a tight one.
func (m Material) Warm() unit.Temperature {
	switch {
	case m.Tight:
		return unit.Temperature(math.Inf(1))
	case m.CO2.Glass == 0: // a rubber already
		return WarmEnd
	}
	return min(WarmEnd, m.CO2.Glass-belowTg)
}

// Materials returns the names of the material cards: PET as "wall", the
// stretched wall of a bottle, "amorphous", finish and gate, and "heat-set"; then
// other materials, so that a change of material is answered by a run.
func Materials() []string {
	return []string{"wall", "amorphous", "heat-set", "pef", "hdpe", "pp", "glass", "metal"}
}

// Named returns the material of the card with the given name.
func Named(name string) (Material, error) {
	for _, n := range Materials() {
		if n == name {
			return FromCard(deck.Card(name))
		}
	}
	return Material{}, fmt.Errorf("permeation: no material named %q, want one of %q", name, Materials())
}

// FromCard returns the material of a card; every key of the card "wall" must be
// there. Without "co2.capacity" carbon dioxide follows Henry's law alone and
// "glass", "co2.affinity" and "co2.mobile" are not asked for; with "tight" set
// nothing else is. A value out of its sense is an error.
func FromCard(c cite.Card) (Material, error) {
	var missing []string
	get := func(key string) float64 {
		d, ok := c.Get(key)
		if !ok {
			missing = append(missing, key)
		}
		return d.Value
	}
	if d, ok := c.Get("tight"); ok && d.Value == 1 {
		return Material{Name: c.Name, Title: c.Title, Tight: true}, nil
	}
	_, glassy := c.Get("co2.capacity")
	if !glassy {
		get = func(key string) float64 {
			d, ok := c.Get(key)
			switch key {
			case "glass", "co2.capacity", "co2.affinity", "co2.affinity.heat", "co2.mobile":
			default:
				if !ok {
					missing = append(missing, key)
				}
			}
			return d.Value
		}
	}
	ref := unit.Temperature(get("reference"))
	law := func(value, energy string) Arrhenius { return Arrhenius{get(value), get(energy), ref} }
	m := Material{
		Name: c.Name, Title: c.Title,
		CO2: DualMode{
			Henry: law("co2.henry", "co2.henry.heat"),
			// The card gives the capacity as gas volume (0 °C, 1 atm) in a volume of wall.
			Capacity: get("co2.capacity") / unit.MolarVolumeSTP,
			Glass:    unit.Temperature(get("glass")), Reference: ref,
			Affinity: law("co2.affinity", "co2.affinity.heat"),
			Mobile:   get("co2.mobile"), Diffusivity: law("co2.diffusivity", "co2.diffusivity.energy"),
		},
		Oxygen:   Henry{law("o2.permeability", "o2.permeability.energy"), law("o2.diffusivity", "o2.diffusivity.energy")},
		Nitrogen: Henry{law("n2.permeability", "n2.permeability.energy"), law("n2.diffusivity", "n2.diffusivity.energy")},
		Water:    law("water.permeability", "water.permeability.energy"),
	}
	if missing != nil {
		return Material{}, fmt.Errorf("permeation: card %s lacks %q", c.Name, missing)
	}
	if err := CheckTemperature(ref); err != nil {
		return Material{}, fmt.Errorf("permeation: card %s: reference: %w", c.Name, err)
	}
	for _, v := range []struct {
		item string
		x    float64
	}{
		{"Henry solubility of CO2", m.CO2.Henry.Value},
		{"diffusivity of CO2", m.CO2.Diffusivity.Value},
		{"permeability of O2", m.Oxygen.Permeability.Value},
		{"diffusivity of O2", m.Oxygen.Diffusivity.Value},
		{"permeability of N2", m.Nitrogen.Permeability.Value},
		{"diffusivity of N2", m.Nitrogen.Diffusivity.Value},
		{"permeability of water", m.Water.Value},
	} {
		if !(v.x > 0) {
			return Material{}, fmt.Errorf("permeation: card %s: %s %g, want more than 0", c.Name, v.item, v.x)
		}
	}
	if !glassy {
		return m, nil
	}
	if !(m.CO2.Affinity.Value > 0) {
		return Material{}, fmt.Errorf("permeation: card %s: affinity of CO2 %g, want more than 0", c.Name, m.CO2.Affinity.Value)
	}
	if !(m.CO2.Capacity >= 0) || !(m.CO2.Mobile >= 0) || m.CO2.Mobile > 1 || !(m.CO2.Glass > ref) {
		return Material{}, fmt.Errorf("permeation: card %s: CO2 capacity %g mol/m³, mobile share %g, glass transition ‹%.4g °C›: want capacity from 0, share 0..1, transition above ‹%.4g °C›",
			c.Name, m.CO2.Capacity, m.CO2.Mobile, m.CO2.Glass.Celsius(), ref.Celsius())
	}
	return m, nil
}

// Scaled returns the material with every diffusivity times f, and so every gas
// permeability: the wall passes f times as much and holds the same. Water is
// left alone. f is what a preset or a fit to pulls sets; 0.01..100.
func (m Material) Scaled(f float64) (Material, error) {
	if !(f >= 0.01) || f > 100 {
		return Material{}, fmt.Errorf("permeation: factor %g on the diffusivity outside 0.01..100", f)
	}
	m.CO2.Diffusivity.Value *= f
	for _, h := range []*Henry{&m.Oxygen, &m.Nitrogen} {
		h.Permeability.Value *= f
		h.Diffusivity.Value *= f
	}
	return m, nil
}
