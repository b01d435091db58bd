package unit

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// drawn is a number of a size that a user may write, in one of all units.
func drawn(t *rapid.T) (Kind, Unit, float64) {
	k := rapid.SampledFrom(Kinds()).Draw(t, "kind")
	u := rapid.SampledFrom(Units(k)).Draw(t, "unit")
	v := rapid.Float64Range(1, 10).Draw(t, "mantissa") * math.Pow10(rapid.IntRange(-9, 9).Draw(t, "power"))
	if k != TemperaturePoint && k != PressureAbs && rapid.Bool().Draw(t, "negative") {
		if k != PressureGauge || toSI(u, v) < 8e4 { // above vacuum, rounded to one digit too
			v = -v
		}
	}
	return k, u, v
}

// What Format prints with 17 digits, Parse reads back, in the same unit.
func TestFullPrecisionRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, u, v := drawn(t)
		si := toSI(u, v)
		text := Format(k, si, u.Symbol, 17)
		got, err := Parse(k, text)
		if err != nil {
			t.Fatal(err)
		}
		// Two conversions and, for °C and °F, the cancellation of 273.15.
		if tol := 1e-15*math.Abs(si)*4 + 2e-13*math.Abs(u.Offset); math.Abs(got.SI-si) > tol || got.Symbol != u.Symbol {
			t.Fatalf("%s: %v printed as %q reads as %+v", k, si, text, got)
		}
	})
}

// With fewer digits it is read back to half a unit of the last digit.
func TestRoundedRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, u, v := drawn(t)
		digits := rapid.IntRange(1, 9).Draw(t, "digits")
		si := toSI(u, v)
		v = fromSI(u, si)
		got, err := Parse(k, Format(k, si, u.Symbol, digits))
		if err != nil {
			t.Fatal(err)
		}
		last := math.Pow(10, math.Floor(math.Log10(math.Abs(v)))+1-float64(digits))
		// Near 0 °C the cancellation of 273.15 leaves its own rounding.
		if d := math.Abs(fromSI(u, got.SI) - v); d > 0.5*last*(1+1e-6)+1e-12*math.Abs(v)+1e-15*math.Abs(u.Offset/u.Scale) {
			t.Fatalf("%s: %v %s off by %v at %d digits", k, v, u.Symbol, d, digits)
		}
	})
}

// What Show prints can be pasted into a design. Below 1 K it may not: four
// digits of -459.67 °F lie under absolute zero.
func TestShownTextIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k, u, v := drawn(t)
		si := toSI(u, v)
		if k == TemperaturePoint && si < 1 {
			t.Skip("below 1 K")
		}
		for _, s := range []System{EU, US} {
			text := Show(k, si, s)
			got, err := Parse(k, text)
			if err != nil {
				t.Fatalf("%s: %v", text, err)
			}
			tol := 0.06 * math.Abs(si) // two digits of a thin wall
			if k == TemperaturePoint {
				tol = 6e-4*math.Abs(si) + 0.051 // four digits; one decimal of -272.1 °C
			}
			if math.Abs(got.SI-si) > tol || got.Symbol != Preferred(k, s) {
				t.Fatalf("%s: %v shown as %q reads as %+v", k, si, text, got)
			}
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"28 mm", "28", "1,5 mm", "9.5 bar(g)", "480 psig", "85 deg C", "5.1×10⁻¹⁸ mol·m/(m²·s·Pa)", "€1.15/kg", "CHF 1/kg", "-.5e-3 in",
		"10 cc·mil/(100 in²·d·atm)", "0x1p-2 m", "1e999 m", "5 x10", "(", "5 ((g)", "5 /", "5 10-6/K", "1 000", "\xff\xfe", "5·10^", "12\"", "٣ mm",
		"0.25 1", "2.15 kgCO₂e/kg", "4 volumes of CO2", "1e-200 K", "1e200 K", "0 °F",
	} {
		for _, k := range []Kind{Length, Permeability, PricePerMass, TemperaturePoint, PressureGauge, Fraction, Ratio, "mood"} {
			f.Add(string(k), s)
		}
	}
	f.Fuzz(func(t *testing.T, kind, text string) {
		k := Kind(kind)
		v, err := Parse(k, text)
		if err != nil {
			if err.Error() == "" || v != (Value{}) {
				t.Fatalf("Parse(%q, %q) = %+v, %q", kind, text, v, err)
			}
			return
		}
		if math.IsNaN(v.SI) || math.IsInf(v.SI, 0) {
			t.Fatalf("Parse(%q, %q) = %v", kind, text, v.SI)
		}
		again, err := Parse(k, Format(k, v.SI, v.Symbol, 17))
		u, _ := Find(k, v.Symbol)
		if err != nil || again.Symbol != v.Symbol || math.Abs(again.SI-v.SI) > 1e-14*math.Abs(v.SI)+2e-13*u.Offset {
			// At the limits of size the last bit may cross them.
			if a := math.Abs(v.SI); a > 0.99*largest || a < 1.01*smallest {
				return
			}
			t.Fatalf("Parse(%q, %q) = %+v, printed and read back %+v, %v", kind, text, v, again, err)
		}
	})
}
