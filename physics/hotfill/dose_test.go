package hotfill

import (
	"math"
	"testing"

	"costrel/physics/drink"
	"costrel/unit"
)

// TestSettledDose: the pack with the dose shows the pressure once settled, and
// the dose exceeds the one that nothing dissolves of.
func TestSettledDose(t *testing.T) {
	p := juice(85)
	p.Panel.Compliance, p.Shrinkage = 2*perkP, 0.01
	at := unit.Celsius(23)
	st := Store{Temperature: at}
	a := Air{Water: 0.89, OxygenSolubility: drink.HenryOxygen(at), NitrogenSolubility: drink.HenryNitrogen(at), Oxygen: 1e-3, Nitrogen: 4.4e-3}
	for _, gauge := range []unit.GaugePressure{-5e3, 0, 20e3} {
		m, err := SettledDose(p, st, gauge, a)
		if err != nil {
			t.Fatal(err)
		}
		q := p
		q.Nitrogen = m
		s, err := Settle(q, st, a)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(s.Gauge-gauge)) > 1 {
			t.Errorf("%g mg: %g Pa, want %g Pa", m*1e6, float64(s.Gauge), float64(gauge))
		}
		dry, err := Dose(p, st, gauge)
		if err != nil {
			t.Fatal(err)
		}
		if m <= dry {
			t.Errorf("settled %g mg, nothing dissolved %g mg", m*1e6, dry*1e6)
		}
	}
	if _, err := SettledDose(p, st, -90e3, a); err == nil {
		t.Error("a vacuum below what is there is answered")
	}
	a.Water = 2
	if _, err := SettledDose(p, st, 0, a); err == nil {
		t.Error("2 kg of water in a kilogram is answered")
	}
}
