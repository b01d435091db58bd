package permeation

import (
	"math"
	"strings"
	"testing"

	"costrel/num/sample"
	"costrel/physics/climate"
	"costrel/unit"
)

func cased(t testing.TB, b example, days float64) Case {
	t.Helper()
	c, err := b.cased(change{})
	if err != nil {
		t.Fatal(err)
	}
	c.Lane = climate.Constant("room", unit.Celsius(22), 0.5, days*day)
	return c
}

// band samples the loss at the end.
func band(t testing.TB, c Case, n, workers int) (sample.Outcome, []Uncertain) {
	t.Helper()
	inputs := c.Uncertainties()
	z, err := sample.Normal(n, len(inputs), 1)
	if err != nil {
		t.Fatal(err)
	}
	out, err := sample.Evaluate(z, workers, func(z []float64) ([]float64, error) {
		m, err := c.Moved(inputs, z)
		if err != nil {
			return nil, err
		}
		l, err := m.Run(0, Options{Cells: 8, Tolerance: 1e-4})
		if err != nil {
			return nil, err
		}
		x, err := l.Loss(l.end, Sealed)
		return []float64{x.Total}, err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out, inputs
}

func TestBand(t *testing.T) {
	c := cased(t, half, 84)
	out, inputs := band(t, c, 256, 2)
	lo, mid, hi, err := sample.Band(out.Column(0), 0.95)
	if err != nil {
		t.Fatal(err)
	}
	if out.Failed != 0 || !(lo < 0.115 && hi > 0.155 && math.Abs(mid-0.135) < 0.005) {
		t.Errorf("%g..%g..%g, %d failed", lo, mid, hi, out.Failed)
	}
	ranked, rest, err := sample.Contributions(out.Z, out.Column(0))
	if err != nil {
		t.Fatal(err)
	}
	if inputs[ranked[0].Input].Key != "factor" || rest > 0.05 {
		t.Errorf("first is %s, rest %g", inputs[ranked[0].Input].Key, rest)
	}
	t.Logf("loss in 12 weeks %.1f %% (%.1f..%.1f)", 100*mid, 100*lo, 100*hi)
	for _, r := range ranked {
		t.Logf("%-42s %5.1f %%, slope %+.2f points", inputs[r.Input].Label, 100*r.Share, 100*r.Slope)
	}
	again, _ := band(t, c, 256, 1)
	for i, v := range again.Column(0) {
		if v != out.Column(0)[i] {
			t.Fatalf("point %d: %g on one core, %g on two", i, v, out.Column(0)[i])
		}
	}
}

func TestPreset(t *testing.T) {
	c := cased(t, two, 182)
	c.Lane = c.Lane.Shifted(-2)
	p, note, err := c.Preset("trade-2L-26wk")
	if err != nil || !strings.Contains(note, "no confirmation") {
		t.Fatalf("%q, %v", note, err)
	}
	l, err := p.Run(0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	x, err := l.Loss(182*day, Sealed)
	if err != nil || math.Abs(x.Total-0.15) > 0.003 {
		t.Errorf("loss %g, %v, want 0.15", x.Total, err)
	}
	if _, _, err := c.Preset("optimistic"); err == nil || !strings.Contains(err.Error(), "pessimistic") {
		t.Errorf("unknown preset: %v", err)
	}
}

// BenchmarkBand is a band of 1000 samples over half a year on two cores.
func BenchmarkBand(b *testing.B) {
	c := cased(b, half, 182)
	for b.Loop() {
		band(b, c, 1000, 2)
	}
}
