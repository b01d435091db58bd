package permeation

import (
	"math"
	"testing"

	"costrel/unit"
)

// TestLumpedOfOne: one part stays what it is.
func TestLumpedOfOne(t *testing.T) {
	m, err := Local(0.27, 12)
	if err != nil {
		t.Fatal(err)
	}
	z, err := Lumped("panel", []Part{{0.04, 0.28e-3, m}})
	if err != nil {
		t.Fatal(err)
	}
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got/want-1) > 1e-12 {
			t.Errorf("%s %g, want %g", what, got, want)
		}
	}
	near("area", z.Area, 0.04)
	near("thickness", z.Thickness, 0.28e-3)
	near("CO2 Henry", z.Material.CO2.Henry.Value, m.CO2.Henry.Value)
	near("CO2 diffusivity", z.Material.CO2.Diffusivity.Value, m.CO2.Diffusivity.Value)
	near("O2", z.Material.Oxygen.Diffusivity.Value, m.Oxygen.Diffusivity.Value)
}

// TestLumpedPasses: two parts of 0.2 and 0.4 mm pass side by side what their
// conductances sum to, and hold per volume the mean.
func TestLumpedPasses(t *testing.T) {
	a, errA := Local(0.20, 8)
	b, errB := Local(0.35, 14)
	if errA != nil || errB != nil {
		t.Fatal(errA, errB)
	}
	parts := []Part{{0.01, 0.2e-3, a}, {0.03, 0.4e-3, b}}
	z, err := Lumped("mix", parts)
	if err != nil {
		t.Fatal(err)
	}
	at := unit.Celsius(38)
	flow := func(of func(Material) float64) (lumped, sum float64) {
		for _, q := range parts {
			sum += of(q.Material) * q.Area / q.Thickness
		}
		return of(z.Material) * z.Area / z.Thickness, sum
	}
	for name, of := range map[string]func(Material) float64{
		"O2":    func(m Material) float64 { return m.Oxygen.Permeability.At(at) },
		"N2":    func(m Material) float64 { return m.Nitrogen.Permeability.At(at) },
		"water": func(m Material) float64 { return m.Water.At(at) },
	} {
		if got, want := flow(of); math.Abs(got/want-1) > 1e-12 {
			t.Errorf("%s: %g, the parts %g", name, got, want)
		}
	}
	// CO2: exact by the Henry part; kD and C'H of Local are nearly in proportion.
	got, want := flow(func(m Material) float64 { return m.CO2.At(at).Permeability(5e5) })
	if math.Abs(got/want-1) > 1e-3 {
		t.Errorf("CO2: %g, the parts %g", got, want)
	}
	held := z.Material.CO2.At(at).Concentration(5e5)
	mean := (0.01*0.2*a.CO2.At(at).Concentration(5e5) + 0.03*0.4*b.CO2.At(at).Concentration(5e5)) / (0.01*0.2 + 0.03*0.4)
	if math.Abs(held/mean-1) > 1e-9 {
		t.Errorf("holds %g mol/m³, the mean is %g", held, mean)
	}
}

func TestLumpedRefuses(t *testing.T) {
	m, _ := Local(0.2, 10)
	other, _ := Named("hdpe")
	for name, parts := range map[string][]Part{
		"none": nil, "no area": {{0, 1e-3, m}}, "no thickness": {{1, math.NaN(), m}}, "other laws": {{1, 1e-3, m}, {1, 1e-3, other}},
	} {
		if _, err := Lumped("x", parts); err == nil {
			t.Errorf("%s: is answered", name)
		}
	}
}
