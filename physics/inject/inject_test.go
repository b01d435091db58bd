package inject

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"costrel/physics/preform"
	"costrel/physics/resin"
	"costrel/unit"
)

var lime = preform.Example()

func parts(t *testing.T, spec preform.Spec) (*preform.Preform, resin.Grade) {
	t.Helper()
	p, err := preform.New(spec)
	if err != nil {
		t.Fatal(err)
	}
	g, err := resin.Find("pet-carbonated")
	if err != nil {
		t.Fatal(err)
	}
	return p, g
}

// The first term agrees with finite volumes wherever it is not refused.
func TestCoolingAgainstVolumes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := Cooling{
			Wall: rapid.Float64Range(1e-3, 8e-3).Draw(t, "wall"), Diffusivity: rapid.Float64Range(6e-8, 3e-7).Draw(t, "alpha"),
			Melt: unit.Celsius(rapid.Float64Range(250, 300).Draw(t, "melt")), Face: unit.Celsius(rapid.Float64Range(5, 40).Draw(t, "face")),
		}
		x := rapid.Float64Range(0.05, 0.59).Draw(t, "left")
		to := c.Face + unit.Temperature(x*float64(c.Melt-c.Face))
		a, err := c.ToMean(to)
		if err != nil {
			t.Fatal(err)
		}
		b, err := c.Simulate(to)
		if err != nil {
			t.Fatal(err)
		}
		tau := c.Wall * c.Wall / (math.Pi * math.Pi * c.Diffusivity)
		if math.Abs(a-b.Time) > 0.012*tau+0.002*b.Time {
			t.Fatalf("first term %g s, finite volumes %g s, time constant %g s", a, b.Time, tau)
		}
	})
}

// With the resin's own heat the time lies between those of the extremes of
// diffusivity from glass to melt.
func TestCoolingResin(t *testing.T) {
	_, g := parts(t, lime)
	c := DefaultCooling(3e-3)
	p, err := c.SimulateResin(g, unit.Celsius(110))
	if err != nil {
		t.Fatal(err)
	}
	slow, _ := g.Diffusivity(unit.Celsius(280))
	fast, _ := g.Diffusivity(unit.Celsius(30))
	var ends [2]float64
	for i, a := range []float64{fast, slow} {
		c.Diffusivity = a
		q, err := c.Simulate(unit.Celsius(110))
		if err != nil {
			t.Fatal(err)
		}
		ends[i] = q.Time
	}
	t.Logf("3 mm to a mean of 110 °C: %.2f s with the resin's heat, %.2f and %.2f s with the diffusivity of 30 and 280 °C", p.Time, ends[0], ends[1])
	if !(p.Time > ends[0] && p.Time < ends[1]) {
		t.Errorf("%g s outside %g..%g s", p.Time, ends[0], ends[1])
	}
}

func TestCoolingRefusals(t *testing.T) {
	good := DefaultCooling(3e-3)
	for _, c := range []struct {
		turn func(*Cooling)
		to   float64
		text string
	}{
		{func(c *Cooling) { c.Wall = 0 }, 75, "wall"},
		{func(c *Cooling) { c.Wall = math.NaN() }, 75, "wall"},
		{func(c *Cooling) { c.Diffusivity = 1 }, 75, "diffusivity"},
		{func(c *Cooling) {}, 10, "not between"},
		{func(c *Cooling) {}, 290, "not between"},
		{func(c *Cooling) {}, 200, "before the first term"},
	} {
		k := good
		c.turn(&k)
		if _, err := k.ToMean(unit.Celsius(c.to)); err == nil || !strings.Contains(err.Error(), c.text) {
			t.Errorf("want %q: %v", c.text, err)
		}
	}
	if _, err := good.Simulate(unit.Celsius(5)); err == nil {
		t.Error("colder than the faces passes")
	}
	if _, err := good.Simulate(good.Face + 1e-20); err == nil {
		t.Error("the faces' own temperature passes")
	}
	if _, err := good.ToMiddle(unit.Celsius(110)); err != nil {
		t.Error(err)
	}
}

func TestAldehyde(t *testing.T) {
	s := Stay{unit.Celsius(285), 90}
	one, _, err := Aldehyde([]Stay{s}, 0.4, false)
	if err != nil {
		t.Fatal(err)
	}
	if one < 4.8e-6 || one > 5.3e-6 {
		t.Errorf("90 s at 285 °C: %.3g ppm, want 5.05", one*1e6)
	}
	two, warn, err := Aldehyde([]Stay{s, s}, 0.4, false)
	if err != nil || math.Abs(two/one-2) > 1e-12 {
		t.Errorf("twice the time: %g, once %g, %v", two, one, err)
	}
	if len(warn) != 1 || !strings.Contains(warn[0], "8 ppm") {
		t.Errorf("warnings %q", warn)
	}
	if _, warn, _ = Aldehyde([]Stay{s}, 0.4, false); warn != nil {
		t.Errorf("5 ppm under a carbonated drink: warnings %q", warn)
	}
	if _, warn, _ = Aldehyde([]Stay{s}, 0.4, true); len(warn) != 1 || !strings.Contains(warn[0], "3 ppm for still water") {
		t.Errorf("5 ppm under still water: warnings %q", warn)
	}
	if _, warn, _ = Aldehyde([]Stay{{unit.Celsius(280), 45}}, 0.4, true); warn != nil {
		t.Errorf("1.9 ppm: warnings %q", warn)
	}
	if _, warn, _ = Aldehyde([]Stay{{unit.Celsius(270), 200}}, 0.1, false); len(warn) != 1 || !strings.Contains(warn[0], "faster") {
		t.Errorf("200 s: warnings %q", warn)
	}
	for _, bad := range [][]Stay{nil, {{unit.Celsius(400), 1}}, {{unit.Celsius(280), -1}}, {{unit.Celsius(280), math.NaN()}}} {
		if _, _, err := Aldehyde(bad, 0.4, false); err == nil {
			t.Errorf("%v passes", bad)
		}
	}
	if _, err := AldehydeRate(unit.Celsius(280), -1); err == nil {
		t.Error("factor -1 passes")
	}
	// the branches meet at melting
	a, _ := AldehydeRate(unit.Celsius(251.79), 1)
	b, _ := AldehydeRate(unit.Celsius(251.81), 1)
	if math.Abs(a/b-1) > 0.02 {
		t.Errorf("jump at melting: %g to %g", a, b)
	}
}

func TestViscosity(t *testing.T) {
	_, g := parts(t, lime)
	dry, warn, err := Viscosity(g, 0.080, 10e-6)
	if err != nil || warn != nil {
		t.Fatalf("%v, %q", err, warn)
	}
	if math.Abs(dry.Value-0.078) > 1e-12 || dry.Low > dry.Value || dry.High < dry.Value {
		t.Errorf("dry resin %+v", dry)
	}
	wet, warn, err := Viscosity(g, 0.080, 100e-6)
	if err != nil || len(warn) != 2 || wet.Value >= dry.Value || wet.Low > wet.Value {
		t.Errorf("wet resin %+v, %q, %v", wet, warn, err)
	}
	if _, _, err := Viscosity(g, 0.080, 0.01); err == nil {
		t.Error("1 % of water passes")
	}
}

func TestEstimate(t *testing.T) {
	p, g := parts(t, lime)
	r, err := Estimate(p, g, Spec{Ledge: 0.033, Cavities: 96})
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%+v", r)
	if r.Mean75 <= r.Mean110 || r.Gate110 >= r.Middle110 || r.Cycle.Low >= r.Cycle.Value || r.Cycle.Value >= r.Cycle.High {
		t.Errorf("out of order: %+v", r)
	}
	if tons := r.Clamp.Value / unit.Gravity / 1e3; tons < 200 || tons > 300 {
		t.Errorf("clamp %g t", tons)
	}
	if math.Abs(r.Output.Value*r.Cycle.Value-96) > 1e-9 {
		t.Errorf("output %g/s at %g s", r.Output.Value, r.Cycle.Value)
	}
	thick := lime
	thick.GateWall = 0.0040
	p2, _ := parts(t, thick)
	r, err = Estimate(p2, g, Spec{Ledge: 0.033, Cavities: 1, GateDiameter: 5e-3, Melt: unit.Celsius(300)})
	if err != nil {
		t.Fatal(err)
	}
	text := unit.Spell(strings.Join(r.Warnings, "\n"), unit.EU)
	for _, want := range []string{"gate diameter", "thicker than the body", "melt 300", "acetaldehyde"} {
		if !strings.Contains(text, want) {
			t.Errorf("no warning of %q in %q", want, r.Warnings)
		}
	}
	_, err = Estimate(p, g, Spec{Ledge: 0, Cavities: 0, Melt: unit.Celsius(100)})
	for _, want := range []string{"diameter", "cavities", "melt temperature"} {
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("no fault of %q in %v", want, err)
		}
	}
	if _, err := Estimate(nil, g, Spec{}); err == nil {
		t.Error("no preform passes")
	}
}

func TestSmallRules(t *testing.T) {
	if r, err := Cavity(0.028, false); err != nil || !(r.Low > 0.028 && r.Low < r.Value && r.Value < r.High) || math.Abs(r.High-0.028/0.994) > 1e-12 {
		t.Errorf("cavity %+v, %v", r, err)
	}
	if r, err := Cavity(0.1, true); err != nil || math.Abs(r.Value-0.1/0.994) > 1e-12 {
		t.Errorf("cavity %+v, %v", r, err)
	}
	if v, err := Residence(3, 1.5, 12); v != 24 || err != nil {
		t.Errorf("residence %g, %v", v, err)
	}
	if r, err := Fill(0.04, 3e-3); err != nil || math.Abs(r.Value-4) > 1e-9 || math.Abs(r.Low-0.04/0.012) > 1e-9 {
		t.Errorf("fill %+v, %v", r, err)
	}
	if s, err := SizeFor(0.3, 0.095, 0.5e-3, 2.83, 2.83); err != nil || s.Wall < 0.004 {
		t.Errorf("size %+v, %v", s, err)
	}
	if a, b, err := Zones(0.30e-3); err != nil || math.Abs(a-0.36e-3) > 1e-12 || math.Abs(b-0.54e-3) > 1e-12 {
		t.Errorf("zones %g, %g, %v", a, b, err)
	}
	if a, warn, err := Draft(0.0098, 0.0102, 0.09); err != nil || warn != nil || math.Abs(a*180/math.Pi-0.2546) > 1e-3 {
		t.Errorf("draft %g, %q, %v", a, warn, err)
	}
	if _, warn, err := Draft(0.0098, 0.0098, 0.09); err != nil || len(warn) != 1 {
		t.Errorf("no draft: %q, %v", warn, err)
	}
	errs := []error{}
	_, e := Cavity(0, true)
	errs = append(errs, e)
	_, e = Residence(1, 0, 1)
	errs = append(errs, e)
	_, e = Fill(0, 3e-3)
	errs = append(errs, e)
	_, e = Fill(0.04, 9e-3)
	errs = append(errs, e)
	_, e = Clamp(0.033, 0)
	errs = append(errs, e)
	_, e = Cycle(0)
	errs = append(errs, e)
	_, e = SizeFor(0.3, 0.03, 3e-3, 4, 4)
	errs = append(errs, e)
	_, e = SizeFor(0.3, math.Inf(1), 3e-3, 4, 4)
	errs = append(errs, e)
	_, e = HoopOuter(4, 11e-3, 8e-3, 1, 2)
	errs = append(errs, e)
	_, e = HoopOuter(math.NaN(), 8e-3, 11e-3, 1, 2)
	errs = append(errs, e)
	_, _, e = Zones(0)
	errs = append(errs, e)
	_, _, e = Draft(0.01, 0.009, 0.09)
	errs = append(errs, e)
	for i, err := range errs {
		if err == nil {
			t.Errorf("case %d passes", i)
		}
	}
}

// The curve passes the times of the first term, and starts with the melt.
func TestCurve(t *testing.T) {
	c := DefaultCooling(3e-3)
	mean110, err := c.ToMean(unit.Celsius(110))
	if err != nil {
		t.Fatal(err)
	}
	middle110, err := c.ToMiddle(unit.Celsius(110))
	if err != nil {
		t.Fatal(err)
	}
	_, mean, middle := c.Curve(mean110, 2)
	if math.Abs(mean[0]-float64(c.Melt)) > 1e-9 || math.Abs(middle[0]-float64(c.Melt)) > 1e-9 {
		t.Errorf("starts at %g and %g K", mean[0], middle[0])
	}
	if math.Abs(mean[1]-383.15) > 0.1 {
		t.Errorf("mean %g K, want 383.15", mean[1])
	}
	if _, _, middle = c.Curve(middle110, 2); math.Abs(middle[1]-383.15) > 0.1 {
		t.Errorf("middle %g K, want 383.15", middle[1])
	}
}
