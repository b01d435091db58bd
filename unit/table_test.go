package unit

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestEveryNameFindsItsUnit(t *testing.T) {
	for _, k := range Kinds() {
		for _, u := range Units(k) {
			for _, name := range append([]string{u.Symbol}, u.Aliases...) {
				got, ok := Find(k, name)
				if !ok || got.Symbol != u.Symbol {
					t.Errorf("%s: Find(%q) = %q, %v; want %q", k, name, got.Symbol, ok, u.Symbol)
				}
			}
		}
	}
}

// Two units of one kind must not share a spelling once separators and the
// like are gone, unless they are the same unit by another name.
func TestNoSpellingHasTwoMeanings(t *testing.T) {
	for _, k := range Kinds() {
		seen := map[string]Unit{}
		for _, u := range Units(k) {
			for _, name := range append([]string{u.Symbol}, u.Aliases...) {
				id := key(name, false)
				if v, taken := seen[id]; taken && v.Symbol != u.Symbol {
					t.Errorf("%s: %q reads as %q and %q", k, name, u.Symbol, v.Symbol)
				}
				seen[id] = u
			}
		}
	}
}

func TestKindsAreWhole(t *testing.T) {
	seen := map[Kind]bool{}
	for _, info := range Table() {
		if seen[info.Kind] {
			t.Errorf("%s stands twice", info.Kind)
		}
		seen[info.Kind] = true
		units := Units(info.Kind)
		if len(units) == 0 {
			t.Fatalf("%s has no unit", info.Kind)
		}
		if first := units[0]; first.Symbol != SI(info.Kind) || first.Scale != 1 || first.Offset != 0 {
			t.Errorf("%s: first unit %+v, want the SI unit %q of scale 1", info.Kind, first, SI(info.Kind))
		}
		for _, s := range []System{EU, US} {
			if u, ok := Find(info.Kind, Preferred(info.Kind, s)); !ok || u.Symbol != Preferred(info.Kind, s) {
				t.Errorf("%s: preferred %q is not a symbol", info.Kind, Preferred(info.Kind, s))
			}
		}
		for _, u := range units {
			if !(u.Scale > 0) || math.IsInf(u.Scale, 0) || math.IsNaN(u.Offset) {
				t.Errorf("%s: %+v", info.Kind, u)
			}
			if u.Offset != 0 && info.Kind != TemperaturePoint {
				t.Errorf("%s: %s has an offset", info.Kind, u.Symbol)
			}
			if u.Symbol == "" && !isBare(info.Kind) {
				t.Errorf("%s has a unit without symbol", info.Kind)
			}
		}
	}
}

// Every constant of quantity.go must be in the table.
func TestEveryKindIsInTheTable(t *testing.T) {
	for _, k := range []Kind{
		Length, Area, Volume, Mass, Time, TemperaturePoint, TemperatureChange, PressureGauge, PressureAbs, PressureChange, Stress,
		Force, Torque, Energy, Power, Speed, Density, Carbonation, Concentration, Fraction, Angle, Permeability, VapourPermeability,
		GasConductance, VapourConductance, PackMassRate, NormalVolume, NormalEnergy, IntrinsicViscosity, SpecificEnergy, Compliance,
		Diffusivity, Conductivity, HeatCapacity, HeatTransfer, MolarEnergy, Rate, Count, Ratio, PricePerMass, PricePerEnergy,
		PricePerThousand, Money, EmissionPerMass, EmissionPerEnergy, Emission, SolubilitySugar, Expansivity, MassPerVolumeRate,
		Output, StrainRate, Viscosity, Stiffness, Attenuation, HeatFlux, MolarMass, Amount, Compressibility, GasSolubility, DrinkSolubility, GasPermeance,
		VapourPermeance, GasLeak, PackGasRate, NormalFlow, NormalVolumePerThousand, EnergyPerThousand, EmissionPerThousand,
	} {
		if Units(k) == nil {
			t.Errorf("%s has no units", k)
		}
	}
}

func TestUnknownKind(t *testing.T) {
	const no Kind = "mood"
	if _, ok := Find(no, "m"); ok || Units(no) != nil || Accepted(no) != nil || SI(no) != "" || Preferred(no, EU) != "" {
		t.Error("an unknown kind has units")
	}
	if _, err := Parse(no, "1 m"); err == nil || !strings.Contains(err.Error(), `no quantity "mood"`) {
		t.Errorf("Parse: %v", err)
	}
}

func TestUnitsGivesCopies(t *testing.T) {
	u := Units(Length)
	u[0].Symbol, u[1].Aliases[0] = "x", "x"
	if v := Units(Length); v[0].Symbol != "m" || v[1].Aliases[0] != "millimetre" {
		t.Error("a caller can change the table")
	}
}

func TestTableAsJSON(t *testing.T) {
	b, err := json.Marshal(Table())
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{
		`{"kind":"length","si":"m","eu":"mm","us":"in","units":[{"symbol":"m","aliases":[`,
		`{"symbol":"°C","aliases":["C"],"scale":1,"offset":273.15}`,
		`"aliases":[]`,
	} {
		if !strings.Contains(string(b), want) {
			t.Errorf("the table lacks %s", want)
		}
	}
}

// A symbol may be written with other separators and digits.
func TestSpellingIsFree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(Kinds()).Draw(t, "kind")
		u := rapid.SampledFrom(Units(k)).Draw(t, "unit")
		name := u.Symbol
		times := rapid.SampledFrom([]string{"·", "*", ".", " ", " · ", "⋅", "×"}).Draw(t, "times")
		name = strings.ReplaceAll(name, "·", times)
		name = strings.ReplaceAll(name, "/", rapid.SampledFrom([]string{"/", " / ", " per "}).Draw(t, "per"))
		name = strings.ReplaceAll(name, "²", rapid.SampledFrom([]string{"²", "2", "^2"}).Draw(t, "square"))
		name = strings.ReplaceAll(name, "³", rapid.SampledFrom([]string{"³", "3", "^3"}).Draw(t, "cube"))
		name = strings.ReplaceAll(name, "µ", rapid.SampledFrom([]string{"µ", "μ", "u"}).Draw(t, "micro"))
		name = strings.ReplaceAll(name, "°", rapid.SampledFrom([]string{"°", "º", "deg ", "° "}).Draw(t, "degree"))
		got, ok := Find(k, name)
		if !ok || got.Symbol != u.Symbol {
			t.Fatalf("%s: %q of %q reads as %q, %v", k, name, u.Symbol, got.Symbol, ok)
		}
	})
}
