package permeation

import (
	"fmt"

	"costrel/physics/drink"
	"costrel/unit"
)

// Gas numbers the gases of the transient model.
type Gas int

// The gases. Argon counts as nitrogen, inside and outside.
const (
	CO2 Gas = iota
	Oxygen
	Nitrogen
	gases
)

// String returns the name of the gas.
func (g Gas) String() string {
	if g < 0 || g >= gases {
		return "unknown gas"
	}
	return [...]string{"CO2", "O2", "N2"}[g]
}

// Outside air, dry: shares of oxygen and the rest, and the pressure of carbon
// dioxide [Pa], which hardly matters. From memory.
const outsideCO2 = 40

func outsideShare(g Gas) float64 {
	switch g {
	case Oxygen:
		return drink.AirOxygen
	case Nitrogen:
		return 1 - drink.AirOxygen
	}
	return 0
}

// Coating is a thin layer on one face of a wall: what it passes
// at [coatTemperature] [mol/(m²·s·Pa)], water [kg/(m²·s·Pa)]; 0 is no coating.
// It stores nothing. With temperature its gas permeance follows that of the
// wall under it, so that the improvement stays what it was measured to be:
// chosen for this project, for the energies of such layers are not in print
// for every kind. That of water is the same at every temperature.
type Coating struct {
	CO2, Oxygen, Nitrogen, Water float64
}

// What the permeance of a coating is given for.
const (
	coatTemperature unit.Temperature = 296.15 // 23 °C
	coatPressure    float64          = 4e5    // Pa of CO2
)

func (c Coating) of(g Gas) float64 { return [...]float64{c.CO2, c.Oxygen, c.Nitrogen}[g] }

// Scavenger binds oxygen that reaches it until it is used up.
//
//	wall:     dC/dt = ... - Rate C q,  dq/dt = -Rate C q/Capacity   in every layer
//	closure:  the share 1 - Share (1 - exp(-20 q)) of the flow passes
//
// q is the part of the capacity that is left. A quick reaction makes a front
// that walks inwards.
type Scavenger struct {
	Capacity float64 // oxygen it binds: of a wall [mol/m³], of a closure [mol]; 0 is none
	Rate     float64 // of a wall: per second at full capacity; 0 takes ScavengeRate
	Share    float64 // of a closure: 0..1 of the flow that a fresh liner binds
}

// ScavengeRate is a reaction that is quick against the way through a wall of
// 0.3 mm, 1/s. Chosen for this project.
const ScavengeRate = 1e-3

// WallZone is a part of the wall with its own thickness and material.
type WallZone struct {
	Name      string
	Area      float64 // [m²]
	Thickness float64 // [m]
	Material  Material
	Inner     Coating // on the face to the drink
	Outer     Coating
	Scavenger Scavenger
	// Crystals (share by volume) and Stretch (in area) of a place whose material
	// is [Local]; both 0 where the material is that of a card. For the reader:
	// the model takes the material.
	Crystals, Stretch float64
}

// Cap is the closure: conductances at Reference, one activation energy for the
// gases [J/mol], and a leak past the seal.
type Cap struct {
	CO2, Oxygen, Nitrogen float64 // [mol/(s·Pa)]
	Water                 float64 // [kg/(s·Pa)]
	Reference             unit.Temperature
	Energy                float64
	// Leak passes gas as it stands in the headspace by viscous flow:
	// Leak (P² - pa²) times its share [mol/(s·Pa²)]; inwards it is air.
	Leak      float64
	Scavenger Scavenger
}

// Kelvin is one delayed part of the growth: Ratio to the elastic growth,
// reached with the time constant Time [s] at Growth.Reference.
type Kelvin struct{ Ratio, Time float64 }

// Growth is how the bottle grows under gauge pressure.
//
//	V = V0 (1 + Elastic (P - pa) + sum of e_k)
//	de_k/dt = (Ratio_k Elastic (P - pa) - e_k) a_T/(Time_k a_age)
//
// a_T follows one activation energy, a_age = (Age/1 d)^AgeExponent, at most
// 100: a bottle that has rested before filling creeps less. Under vacuum the
// wall gives by Panel instead and creep stops being driven.
type Growth struct {
	Elastic     float64 // [1/Pa]; 0 is rigid
	Terms       []Kelvin
	Energy      float64          // [J/mol]
	Reference   unit.Temperature // of the times
	Age         float64          // of the bottle at filling [s]; 0 counts as a day
	AgeExponent float64
	// Panel is what the wall gives inward under vacuum: points that rise from
	// (0, 0), joined by straight lines, the last slope going on.
	Panel []PanelPoint
}

// PanelPoint is a point of a panel curve.
type PanelPoint struct {
	Vacuum float64 // below ambient [Pa]
	Volume float64 // given inward [m³]
}

// Compliance returns the panel of one slope [m³/Pa].
func Compliance(k float64) []PanelPoint {
	if k == 0 {
		return nil
	}
	return []PanelPoint{{1e3, k * 1e3}}
}

// Uptake is the oxygen that the drink consumes.
//
//	dn/dt = -Rate n_dissolved (A/A0)
//
// With an Acid the reaction is of second order and ends with it: every mole of
// oxygen takes Stoichiometry moles of the acid (2 for ascorbic acid to the
// dehydro acid and water, about 11 mg for each mg).
type Uptake struct {
	Rate          float64 // [1/s]; 0 is none
	Acid          float64 // A0 in the drink [mol]; 0 is without limit
	Stoichiometry float64
}

// Pack is a filled and closed bottle, at the moment of closing.
type Pack struct {
	Liquid   drink.Liquid
	Contents drink.Contents
	Volume   float64 // brimful without pressure, after any shrinkage [m³]
	Zones    []WallZone
	Cap      Cap
	Growth   Growth
	Uptake   Uptake
	// Filler is the state of the pack before its gas found its balance: the
	// set-point of the filler. Needed only for loss against it.
	Filler *Filler
	// Read is the temperature at which carbonation is read, as a laboratory
	// brings the pack to its own; 0 = that at the start of the lane.
	Read unit.Temperature
}

// Filler is the pack at the moment it is closed, before balance.
type Filler struct {
	Dissolved float64 // CO2 in the liquid [mol]
	Headspace float64 // volume [m³]
	Gas       float64 // CO2 in the headspace [mol]
}

// Fill returns contents, brimful volume and filler state of a pack: what
// [drink.Pack] computes, ready for Pack. The growth of p is that of the bottle.
func Fill(l drink.Liquid, p drink.Pack) (Pack, error) {
	c, err := p.Contents(l)
	if err != nil {
		return Pack{}, err
	}
	dry := float64(p.Ambient) - l.VapourPressure(p.FillT)
	space := p.Brimful - p.Fill
	f := &Filler{Dissolved: c.Counted, Headspace: space}
	if l.Drink().Carbonation > 0 {
		f.Gas = (1 - p.Air) * dry * space / (unit.GasConstant * float64(p.FillT))
	}
	out := Pack{Liquid: l, Contents: c, Volume: p.Brimful, Filler: f, Growth: Growth{Elastic: p.Growth}}
	if p.Stated != drink.Filler {
		out.Read = p.ReferenceT
		if c.CO2 > 0 {
			// What the filler must set so that the closed pack reads the stated
			// carbonation: all that is in it, less what closing traps.
			if f.Dissolved = c.CO2 - f.Gas; f.Dissolved < 0 {
				return Pack{}, fmt.Errorf("permeation: fill: the closed pack of %.3g vol holds %.3g mmol of carbon dioxide, the gas space is closed with %.3g mmol already: no filling gives that; close more air in, or take more carbonation",
					drink.Volumes(l.Drink().Carbonation), 1e3*c.CO2, 1e3*f.Gas)
			}
		}
	}
	return out, nil
}

// DefaultGrowth returns the elastic growth with the delayed parts of a PET
// bottle: Kelvin terms of 0.1, 1, 7, 40 and 250 days at 22 °C, 120 kJ/mol.
// Chosen for this project: together they follow J = J0 (1 + 0.17 (t/1 d)^0.2),
// and reach the growth remembered from thermal stability tests. That ageing
// slows creep is known (Struik1978, exponent from memory).
func DefaultGrowth(elastic float64) Growth {
	return Growth{
		Elastic: elastic,
		Terms: []Kelvin{
			{0.09, 0.1 * day}, {0.11, 1 * day}, {0.12, 7 * day}, {0.12, 40 * day}, {0.12, 250 * day},
		},
		Energy: 120e3, Reference: unit.Celsius(22), AgeExponent: 0.7,
	}
}
