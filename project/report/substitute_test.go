package report

import (
	"testing"

	"costrel/figure"
	"costrel/unit"
)

func in(symbol string, k unit.Kind, v float64) figure.Input {
	return figure.Input{Key: "design:x", Symbol: symbol, Value: v, Kind: k, Origin: figure.Given}
}

func TestSubstitute(t *testing.T) {
	for name, c := range map[string]struct {
		kind     unit.Kind
		value    float64
		equation string
		inputs   []figure.Input
		want     string
	}{
		"stack.load": {
			unit.Force, 213.4, "F = SF 9.80665 m/s² (m (L P - 1) + m_pallet (P - 1) / N)",
			[]figure.Input{in("SF", unit.Ratio, 1.5), in("m", unit.Mass, 1.588), in("L", unit.Count, 5), in("P", unit.Count, 2), in("m_pallet", unit.Mass, 25), in("N", unit.Count, 120)},
			"F = 1.5 · 9.80665 m/s² · (1.588 kg · (5 · 2 - 1) + 25 kg · (2 - 1) / 120) → 213.4 N",
		},
		"hotfill.vacuum": {
			unit.PressureChange, 18090, "(P - p_w) (V (1 - s) - C (p_a - P) - V_liquid) = n R T_end, vacuum = p_a - P",
			[]figure.Input{in("V", unit.Volume, 538.1e-6), in("s", unit.Fraction, 0.00935), in("p_a", unit.PressureAbs, 101325), in("T_end", unit.TemperaturePoint, 293.15)},
			"(P - p_w) · (538.1 mL · (1 - 0.935 %) - C · (1.01325 bar(a) - P) - V_liquid) = n R · 293.15 K, vacuum = 1.01325 bar(a) - P → 0.1809 bar",
		},
		"cost.total": {
			unit.PricePerThousand, 75, "c = (resin + air) / (1 - scrap) + 1000 tooling / bottles",
			[]figure.Input{in("resin", unit.PricePerThousand, 46), in("air", unit.PricePerThousand, 2), in("scrap", unit.Fraction, 0.01), in("tooling", unit.Money, 1e5), in("bottles", unit.Count, 5e7)},
			"c = (46 EUR/1000 + 2 EUR/1000) / (1 - 1 %) + 1000 · 100000 EUR / 5e7 → 75 EUR/1000",
		},
		"air.volume.strict": {
			unit.NormalVolume, 0.058, "N = ((V + V_dead) (p + p_a) - (V_dead + V_preform) p_a) T_n / (p_n T)",
			[]figure.Input{
				in("V", unit.Volume, 1.5e-3), in("V_dead", unit.Volume, 0.3e-3), in("V_preform", unit.Volume, 30e-6), in("p", unit.PressureGauge, 35e5), in("p_a", unit.PressureAbs, 101325),
				in("p_n", unit.PressureAbs, 101325), in("T_n", unit.TemperaturePoint, 273.15), in("T", unit.TemperaturePoint, 293.15),
			},
			"N = ((1500 mL + 300 mL) · (35 bar(g) + 1.01325 bar(a)) - (300 mL + 30 mL) · 1.01325 bar(a)) · 273.15 K / (1.01325 bar(a) · 293.15 K) → 0.058 Nm³",
		},
		"large for their kinds": {
			unit.PressureChange, 985600, "p = ρ c v (H + 0)",
			[]figure.Input{in("ρ", unit.Density, 1033), in("c", unit.Speed, 160.5), in("v", unit.Speed, 5.944), in("H", unit.Length, 2500)},
			"p = 1.033 g/cm³ · 160.5 m/s · 5.944 m/s · (2500 m + 0) → 9.856 bar",
		},
		"nothing to put in": {unit.Time, 1, "t = time of the last touch", nil, ""},
		"a remark stays as it is": {
			unit.Ratio, 4, "λ = a², from 10 mm below the ledge", []figure.Input{in("a", unit.Ratio, 2)}, "λ = (2)², from 10 mm below the ledge → 4",
		},
		"no value stays a letter": {unit.Length, 1e-3, "t = m_panel / (ρ A_panel)", []figure.Input{in("ρ", unit.Density, 1360)}, "t = m_panel / (1.36 g/cm³ · A_panel) → 1 mm"},
		"divided by a compound":   {unit.Mass, 1e-3, "m = E / ρ", []figure.Input{in("ρ", unit.Density, 1360)}, "m = E / (1.36 g/cm³) → 1 g"},
		"power, integral":         {unit.Volume, 1e-3, "V = ∫ π r_inner² dz + π d² h / 4", []figure.Input{in("d", unit.Length, 0.02), in("h", unit.Length, 0.01)}, "V = ∫ π r_inner² dz + π · (20 mm)² · 10 mm / 4 → 1000 mL"},
		"functions":               {unit.Ratio, 1, "y = f A exp(-E / (R T)) max(A, f(A))", []figure.Input{in("f", unit.Ratio, 2), in("exp", unit.Ratio, 2), in("max", unit.Ratio, 2), in("A", unit.Ratio, 3), in("T", unit.TemperaturePoint, 300)}, "y = 2 · 3 · exp(-E / (R · 300 K)) · max(3, f(3)) → 1"},
		"symbol like a unit":      {unit.Length, 1e-3, "x = D - 2 t + 3 m + 2.5 s", []figure.Input{in("t", unit.Length, 1e-3)}, "x = D - 2 · 1 mm + 3 m + 2.5 s → 1 mm"},
		"unit in brackets":        {unit.Length, 1e-3, "x = m [m K] + 18 g/mol", []figure.Input{in("m", unit.Length, 1e-3), in("K", unit.Length, 1e-3), in("g", unit.Length, 1)}, "x = 1 mm [m K] + 18 g/mol → 1 mm"},
		"the head, a remark":      {unit.Length, 1e-3, "x(t) = x + y, x added", []figure.Input{in("x", unit.Length, 1e-3), in("t", unit.Length, 1e-3), in("y", unit.Length, -1e-3)}, "x(t) = 1 mm + (-1 mm), x added → 1 mm"},
		"number and bracket":      {unit.Length, 1e-3, "x = 1000 (D + 2 (D - t))", []figure.Input{in("t", unit.Length, 1e-3)}, "x = 1000 · (D + 2 · (D - 1 mm)) → 1 mm"},
		"a slash without spaces":  {unit.Ratio, 2, "y = exp(-t/τ) (a - b)/z", []figure.Input{in("t", unit.Time, 60), in("z", unit.TemperatureChange, 10)}, "y = exp(-60 s/τ) · (a - b)/10 K → 2"},
		"no equation":             {unit.Length, 1e-3, "along the lane", nil, ""},
	} {
		f := figure.Figure{Key: name, Kind: c.kind, Value: c.value, Origin: figure.Origin{Equation: c.equation, Inputs: c.inputs}}
		f.Key = "design:" + name // shown in the preferred unit
		if got := substitute(f, unit.EU, "EUR"); got != c.want {
			t.Errorf("%s:\n got %s\nwant %s", name, got, c.want)
		}
	}
}

// A standard cubic foot is taken at 60 °F: put into an equation for 0 °C it
// would be 5.7 % off.
func TestSubstituteUS(t *testing.T) {
	f := figure.Figure{Key: "design:x", Kind: unit.NormalVolume, Value: 0.0713047 * 0.6, Origin: figure.Origin{Equation: "N_net = N (1 - r)", Inputs: []figure.Input{in("N", unit.NormalVolume, 0.0713047), in("r", unit.Fraction, 0.4)}}}
	if got, want := substitute(f, unit.US, "USD"), "N_net = 0.0713047 Nm³ · (1 - 40 %) → 0.04278 Nm³ = 1.597 scf"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
