package base

import (
	"math"
	"strings"
	"testing"

	"costrel/unit"

	"pgregory.net/rapid"
)

func near(t *testing.T, what string, got, want, rel float64) {
	t.Helper()
	if !(math.Abs(got-want) <= rel*math.Abs(want)) {
		t.Errorf("%s: %g, want %g", what, got, want)
	}
}

func refuses(t *testing.T, want string, err error) {
	t.Helper()
	if err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), want) || !strings.HasPrefix(err.Error(), "base: ") {
		t.Errorf("%q: %v", want, err)
	}
}

func TestDisc(t *testing.T) {
	d := Disc{Radius: 8e-3, Thickness: 1e-3, Modulus: 2.2e9, Poisson: 0.4}
	g, err := d.Gain()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "gain", g, 48, 1e-12)
	p, err := d.Under(5e5)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "edge", p.Edge, 24e6, 1e-12)
	near(t, "edge by gain", p.Edge, g*5e5, 1e-12)
	near(t, "centre", p.Centre, 16.8e6, 1e-12)
	// D = 2.2e9 1e-9/(12 0.84) = 0.218254; w = 5e5 4.096e-9/(64 0.218254)
	near(t, "deflection", p.Small, 1.46619e-4, 1e-5)
	if p.Label != Estimate || len(p.Warnings) != 0 {
		t.Errorf("%+v", p)
	}
	thick, _ := Disc{8e-3, 2e-3, 2.2e9, 0.4}.Under(5e5)
	if len(thick.Warnings) != 1 || !strings.Contains(thick.Warnings[0], "passes 0.2") {
		t.Errorf("%v", thick.Warnings)
	}
	soft, _ := Disc{25e-3, 0.4e-3, 3e9, 0.38}.Under(10e3)
	if len(soft.Warnings) != 1 || !strings.Contains(soft.Warnings[0], "upper bounds") || !(soft.Large < soft.Small/2) {
		t.Errorf("%+v", soft)
	}
	vacuum, _ := d.Under(-5e4)
	if !(vacuum.Edge < 0 && vacuum.Small < 0 && vacuum.Large < 0) {
		t.Errorf("%+v", vacuum)
	}
}

func TestDiscProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Disc{
			Radius:    rapid.Float64Range(3e-3, 30e-3).Draw(t, "a"),
			Thickness: rapid.Float64Range(0.2e-3, 2.5e-3).Draw(t, "h"),
			Modulus:   rapid.Float64Range(1e9, 5e9).Draw(t, "E"), Poisson: rapid.Float64Range(0, 0.49).Draw(t, "nu"),
		}
		p := unit.GaugePressure(rapid.Float64Range(1e3, 1e6).Draw(t, "p"))
		a, err := d.Under(p)
		if err != nil {
			t.Fatal(err)
		}
		if !(a.Centre < a.Edge) || !(a.Large > 0 && a.Large <= a.Small*(1+1e-12)) {
			t.Fatalf("%+v", a)
		}
		x := a.Large / d.Thickness
		if math.Abs(a.Large*(1+0.488*x*x)-a.Small) > 1e-9*a.Small {
			t.Fatalf("cubic: %+v", a)
		}
		thicker := d
		thicker.Thickness *= 1.1
		wider := d
		wider.Radius *= 1.1
		b, _ := thicker.Under(p)
		c, _ := wider.Under(p)
		if !(b.Edge < a.Edge && b.Large < a.Large && c.Edge > a.Edge && c.Large > a.Large) {
			t.Fatal("thicker must stress less, wider more")
		}
	})
}

func TestStrap(t *testing.T) {
	s, err := StrapStress(4.29e5, 49.5e-3, 0.30e-3)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "middle", s.Value, 70.785e6, 1e-6)
	near(t, "low", s.Low, 56.628e6, 1e-6)
	near(t, "high", s.High, 88.481e6, 1e-5)
	v, _ := StrapStress(-5e4, 49.5e-3, 0.3e-3)
	if !(v.Low < v.Value && v.Value < v.High) {
		t.Errorf("%+v", v)
	}
	if s.Label != Estimate {
		t.Error(s.Label)
	}
}

func TestSnap(t *testing.T) {
	c := Cap{Radius: 40e-3, Ring: 25e-3, Wall: 0.4e-3, Modulus: 2.5e9, Poisson: 0.4}
	s, err := c.Snap()
	if err != nil {
		t.Fatal(err)
	}
	// free 0.84; perfect 2 2.5e9 1e-4/sqrt(2.52) = 0.314970 MPa; phi = asin 0.625 = 0.675132;
	// lambda = 10.08^0.25 10 2 sin 0.337566 = 1.781833 10 0.662349 = 11.80195
	near(t, "perfect", s.Perfect, 0.314970e6, 1e-5)
	near(t, "lambda", s.Lambda, 11.802, 1e-4)
	near(t, "knock-down", s.KnockDown, 0.14+3.2/(11.80195*11.80195), 1e-4)
	near(t, "pressure", s.Pressure, s.KnockDown*s.Perfect, 1e-12)
	flat, err := Cap{Radius: 0.5, Ring: 5e-3, Wall: 1e-3, Modulus: 2.5e9, Poisson: 0.4}.Snap()
	if err != nil || flat.KnockDown != 1 || len(flat.Warnings) != 1 {
		t.Errorf("%+v, %v", flat, err)
	}
	deeper := c
	deeper.Radius = 30e-3
	if d, _ := deeper.Snap(); !(d.Pressure > s.Pressure) {
		t.Error("a deeper push-up must hold more")
	}
	for want, bad := range map[string]Cap{
		"radius of curvature 0 m": {},
		"ring radius 0.05 m":      {Radius: 0.04, Ring: 0.05, Wall: 4e-4, Modulus: 1e9},
		"ring radius 0 m":         {Radius: 0.04, Wall: 4e-4, Modulus: 1e9},
		"wall 0.005 m outside":    {Radius: 0.04, Ring: 0.02, Wall: 5e-3, Modulus: 1e9},
		"modulus NaN":             {Radius: 0.04, Ring: 0.02, Wall: 4e-4, Modulus: math.NaN()},
		"Poisson's ratio 0.5":     {Radius: 0.04, Ring: 0.02, Wall: 4e-4, Modulus: 1e9, Poisson: 0.5},
	} {
		_, err := bad.Snap()
		refuses(t, want, err)
	}
}

func TestCrackIndex(t *testing.T) {
	for stress, want := range map[float64]Rank{0: Lower, 11e6: Lower, 11.3e6: Watch, 15.9e6: Watch, 16e6: High, 60e6: High} {
		i, err := CrackIndexOf(stress)
		if err != nil || i.Rank != want || i.Label != Ranking || !(i.Low <= i.Value && i.Value <= i.High) {
			t.Errorf("%g: %+v, %v", stress, i, err)
		}
	}
	i, _ := CrackIndexOf(24e6)
	near(t, "index", i.Value, 1.5, 1e-12)
	near(t, "low", i.Low, 1.2, 1e-12)
	near(t, "high", i.High, 2.0, 1e-12)
	for _, v := range []float64{-1, math.NaN(), math.Inf(1)} {
		_, err := CrackIndexOf(v)
		refuses(t, "stress crack: stress", err)
	}
}

func TestLife(t *testing.T) {
	l, err := FitLife(HandFailures())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "standard error", l.SEB*1e6, 0.0632456/4, 1e-5)
	near(t, "R²", l.R2, 1-0.012/0.372, 1e-6)
	if len(l.Warnings) != 0 || l.Label != Ranking {
		t.Errorf("%+v", l)
	}
	at, err := l.At(10e6, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "time", math.Log10(at.Time), 3.24, 1e-9)
	near(t, "low", math.Log10(at.Low), 3.24-3.182446*0.0632456*math.Sqrt(1.2), 1e-6)
	if at.Warning != "" {
		t.Error(at.Warning)
	}
	if out, err := l.At(13e6, 0.95); err != nil || !strings.Contains(out.Warning, "extrapolated") || !(out.Time < at.Time) {
		t.Errorf("%+v, %v", out, err)
	}
	for want, f := range map[string]func() error{
		"half a span beyond":   func() error { _, err := l.At(20e6, 0.95); return err },
		"confidence 1 outside": func() error { _, err := l.At(10e6, 1); return err },
		"stress NaN":           func() error { _, err := l.At(math.NaN(), 0.9); return err },
		"no line":              func() error { _, err := Life{}.At(1e7, 0.9); return err },
		"4 bottles, want 5":    func() error { _, err := FitLife(HandFailures()[:4]); return err },
		"want 5 % or more": func() error {
			d := HandFailures()
			for i := range d {
				d[i].Stress = 9e6
			}
			_, err := FitLife(d)
			return err
		},
		"bottle 2: time 0 s": func() error { d := HandFailures(); d[1].Time = 0; _, err := FitLife(d); return err },
		"bottle 3: stress":   func() error { d := HandFailures(); d[2].Stress = math.NaN(); _, err := FitLife(d); return err },
	} {
		refuses(t, want, f())
	}
}

func TestLifeWarns(t *testing.T) {
	d := HandFailures()
	for i := range d {
		d[i].Stress = 20e6 - d[i].Stress
	}
	if l, err := FitLife(d); err != nil || l.B >= 0 || !strings.Contains(l.Warnings[0], "grow with stress") {
		t.Errorf("%+v, %v", l, err)
	}
	noisy := []Failure{{8e6, 2000}, {8e6, 500}, {10e6, 1800}, {12e6, 900}, {12e6, 900}}
	if l, err := FitLife(noisy); err != nil || len(l.Warnings) != 1 || !strings.Contains(l.Warnings[0], "clear of zero") {
		t.Errorf("%+v, %v", l, err)
	}
}

// A line without scatter is found again, whatever it is.
func TestLifeFindsTheLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.Float64Range(3, 7).Draw(t, "a"), rapid.Float64Range(0.05, 0.3).Draw(t, "b")
		var d []Failure
		for i := range rapid.IntRange(5, 30).Draw(t, "n") {
			s := 6 + float64(i%7)
			d = append(d, Failure{s * 1e6, math.Pow(10, a-b*s)})
		}
		l, err := FitLife(d)
		if err != nil || math.Abs(l.A-a) > 1e-9 || math.Abs(l.B*1e6-b) > 1e-9 || l.Residual > 1e-9 {
			t.Fatalf("%+v, %v", l, err)
		}
	})
}

func TestRules(t *testing.T) {
	found := func(s Shape) map[string]Finding {
		t.Helper()
		list, err := Rules(s)
		if err != nil {
			t.Fatal(err)
		}
		out := map[string]Finding{}
		for _, f := range list {
			out[f.Key] = f
		}
		return out
	}
	// Valleys of 0.27-0.30 mm stand above the single and below the mean rule.
	f := found(Shape{ValleyLeast: 0.257e-3, ValleyMean: 0.285e-3, GateOffset: 4e-3, IntrinsicViscosity: 0.082, Clearance: 7e-3, StandingRatio: 0.7, ValleyAngle: 10 * math.Pi / 180})
	for key, want := range map[string]bool{
		"valley.least": true, "valley.mean": false, "gate.offset": true, "viscosity.least": true, "clearance.least": true,
		"clearance.most": false, "standing.least": true, "standing.most": true, "valley.angle": true,
	} {
		if f[key].OK != want || !f[key].Known {
			t.Errorf("%s: %+v", key, f[key])
		}
	}
	if g := f["fillet.least"]; g.Known || g.OK {
		t.Errorf("%+v", g)
	}
	_, err := Rules(Shape{Clearance: -1})
	refuses(t, "clearance.least: -1", err)
	_, err = Rules(Shape{ValleyMean: math.NaN()})
	refuses(t, "valley.mean: NaN", err)
}

func TestRefusals(t *testing.T) {
	good := Disc{8e-3, 1e-3, 2e9, 0.4}
	for want, change := range map[string]func(*Disc){
		"radius 0 m outside":          func(d *Disc) { d.Radius = 0 },
		"thickness 0 m outside":       func(d *Disc) { d.Thickness = 0 },
		"is not below the radius":     func(d *Disc) { d.Radius, d.Thickness = 1e-3, 1e-3 },
		"modulus 0 Pa outside":        func(d *Disc) { d.Modulus = 0 },
		"Poisson's ratio NaN outside": func(d *Disc) { d.Poisson = math.NaN() },
	} {
		d := good
		change(&d)
		_, err := d.Under(1e5)
		refuses(t, want, err)
		_, err = d.Gain()
		refuses(t, want, err)
	}
	_, err := good.Under(unit.GaugePressure(math.NaN()))
	refuses(t, "gate: pressure NaN", err)
	_, err = StrapStress(1e9, 0.05, 3e-4)
	refuses(t, "strap: pressure", err)
	_, err = StrapStress(1e5, 0, 3e-4)
	refuses(t, "strap: radius 0", err)
	_, err = StrapStress(1e5, 0.05, 0)
	refuses(t, "strap: wall 0", err)
	_, err = StrapStress(1e5, 6e-3, 8e-3)
	refuses(t, "is not below", err)
}

func TestCautions(t *testing.T) {
	if n := len(Cautions(0, false)); n != 2 {
		t.Errorf("%d cautions", n)
	}
	if c := Cautions(5e5, true); len(c) != 4 || !strings.Contains(c[0].Text, "goggles") {
		t.Errorf("%+v", c)
	}
}
