package preform

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"costrel/cite"
	"costrel/num/numtest"
)

func TestGaussRule(t *testing.T) {
	for n := range 10 {
		sum := 0.0
		for k, x := range gauss5X {
			sum += gauss5W[k] * math.Pow(x, float64(n))
		}
		numtest.Near(t, "∫x^n", sum, 1/float64(n+1), 2e-15)
	}
}

// The mass coordinate and its inverse, for both caps and a transition.
func TestMassCoordinate(t *testing.T) {
	specs := []Spec{limeSpec, teaSpec, taperedSpec}
	rapid.Check(t, func(rt *rapid.T) {
		p := numtest.Must(New(rapid.SampledFrom(specs).Draw(rt, "preform")))
		// down to a millionth of the way, where the mass is 1e-12
		s := p.ArcLength() * math.Pow(10, rapid.Float64Range(-6, 0).Draw(rt, "log s"))
		m := p.MassTo(s)
		if got := p.ArcAt(m); math.Abs(got-s) > 1e-9*s {
			rt.Fatalf("arc %g -> mass %g -> arc %g", s, m, got)
		}
		// the rate is the slope of the mass
		if math.Abs(s-p.sCap) > 1e-4*s && math.Abs(s-p.sBody) > 1e-4*s && s < 0.999*p.ArcLength() {
			h := 1e-5 * s
			slope := (p.MassTo(s+h) - p.MassTo(s-h)) / (2 * h)
			if q := p.At(s); math.Abs(slope-q.Rate) > 1e-5*q.Rate {
				rt.Fatalf("at %g: slope %g, rate %g", s, slope, q.Rate)
			}
		}
	})
	p := numtest.Must(New(taperedSpec))
	numtest.Near(t, "all of it", p.MassTo(p.ArcLength()), p.MassBelowLedge(), 1e-14)
	numtest.Near(t, "end", p.ArcAt(p.MassBelowLedge()), p.ArcLength(), 1e-14)
	numtest.Near(t, "parts", p.CapMass()+p.BodyMass()+p.TransitionMass()+p.Spec().FinishMass, p.Mass(), 1e-14)
	numtest.Near(t, "volume", p.VolumeBelowLedge()*1335, p.MassBelowLedge(), 1e-14)
	if p.ArcAt(-1) != 0 || p.ArcAt(1) != p.ArcLength() || p.MassTo(-1) != 0 {
		t.Error("outside the preform")
	}
}

func TestSections(t *testing.T) {
	p := numtest.Must(New(limeSpec))
	tip, body := p.At(0), p.At(0.06)
	if tip.Rm != 0 || tip.Wall != 0.0028 || tip.Rate != 0 {
		t.Errorf("tip %+v", tip)
	}
	numtest.Near(t, "inside", body.Ri, 0.0098, 1e-12)
	numtest.Near(t, "mid", body.Rm, 0.0116, 1e-12)
	numtest.Near(t, "outside", body.Ro, 0.0134, 1e-12)
	numtest.Near(t, "ledge", 1+p.At(p.ArcLength()).BelowLedge, 1, 1e-12)
	// "below ledge about 104 mm", "78.7 mm": by hand with other models of the tip
	numtest.Near(t, "length", p.LengthBelowLedge(), 0.104, 0.002)
	numtest.Near(t, "length", numtest.Must(New(teaSpec)).LengthBelowLedge(), 0.0787, 0.006)
	q := numtest.Must(New(taperedSpec))
	end := q.At(q.ArcLength())
	numtest.Near(t, "ledge wall", end.Wall, 0.002, 1e-12)
	numtest.Near(t, "ledge bore", end.Ri, 0.0217/2, 1e-12)
	// axial distance and arc run together through all parts
	prev := q.At(0).BelowLedge
	for k := 1; k <= 200; k++ {
		x := q.At(q.ArcLength() * float64(k) / 200).BelowLedge
		if x >= prev {
			t.Fatalf("step %d: %g after %g", k, x, prev)
		}
		prev = x
	}
}

func TestStretch(t *testing.T) {
	p := numtest.Must(New(limeSpec))
	s := numtest.Must(p.Stretch(limeAim))
	numtest.Near(t, "overall axial", s.AxialOverall, 0.3314/(0.0911+math.Pi/2*0.0116), 1e-12)
	numtest.Near(t, "local times hoop", s.AxialLocal*s.HoopMid, s.Planar, 1e-12)
	if !(s.HoopInner > s.HoopMid && s.HoopMid > s.HoopOuter) {
		t.Errorf("order of the hoop ratios: %+v", s)
	}
	seen := map[string]bool{}
	for _, r := range s.Ratios() {
		if r.Definition == "" || r.Label == "" || seen[r.Key] || !(r.Value > 0) {
			t.Errorf("ratio %+v", r)
		}
		seen[r.Key] = true
	}
	// unstretched: all ratios are one
	same := numtest.Must(p.Stretch(Aim{Diameter: p.OuterDiameter(), Wall: 0.0036, Arc: p.ArcLength(), Density: 1335}))
	for _, r := range same.Ratios() {
		numtest.Near(t, r.Key, r.Value, 1, 1e-12)
	}
	for _, a := range []Aim{{}, {Diameter: 0.001, Wall: 0.001, Arc: 1, Density: 1}, {Diameter: math.NaN(), Wall: 1, Arc: 1, Density: 1}} {
		if _, err := p.Stretch(a); err == nil {
			t.Errorf("%+v: no error", a)
		}
	}
}

func TestFaults(t *testing.T) {
	for _, c := range []struct {
		name string
		edit func(*Spec)
		want string
	}{
		{"diameter", func(s *Spec) { s.InnerDiameter = 0 }, "inner diameter"},
		{"wall", func(s *Spec) { s.Wall = -1 }, "wall -1"},
		{"not a number", func(s *Spec) { s.BodyLength = math.NaN() }, "body length"},
		{"density", func(s *Spec) { s.Density = math.Inf(1) }, "density"},
		{"gate", func(s *Spec) { s.GateWall = 0.025 }, "fills the end cap"},
		{"cap", func(s *Spec) { s.Cap = "flat" }, `"flat"`},
		{"transition", func(s *Spec) { s.Transition.LedgeWall = 0.002 }, "give the transition a length"},
	} {
		s := limeSpec
		c.edit(&s)
		_, err := New(s)
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: error %v, want %q", c.name, err, c.want)
		}
	}
	if _, err := New(Spec{}); err == nil || strings.Count(err.Error(), "\n") < 3 {
		t.Errorf("every fault at once: %v", err)
	}
}

func TestReview(t *testing.T) {
	p := numtest.Must(New(limeSpec))
	s := numtest.Must(p.Stretch(limeAim))
	got := map[string]Finding{}
	for _, f := range numtest.Must(p.Review(CSD, &s)) {
		got[f.Key] = f
		if f.Text == "" || f.Confidence == "" {
			t.Errorf("finding without words: %+v", f)
		}
		if _, ok := cite.Lookup(f.Source); !ok {
			t.Errorf("%s: source %q unknown", f.Key, f.Source)
		}
	}
	for key, want := range map[string]Place{
		"every.gate_ratio":  Inside,  // 0.78
		"every.wall_limit":  Inside,  // 3.6 of 4.5
		"every.hoop_limit":  Above,   // 4.26 of 4.2
		"every.axial_limit": AtLimit, // 3.03 of 2.8-3.1
		"every.areal_wish":  Above,   // 12.58 of 8-12
		"csd.hoop":          Inside,
		"csd.axial":         Inside,
		"csd.areal":         Inside,
		"csd.wall":          Inside,
	} {
		if got[key].Place != want {
			t.Errorf("%s: %q, want %q (%s)", key, got[key].Place, want, got[key].Text)
		}
	}
	thin := limeSpec
	thin.Wall, thin.GateWall = 0.002, 0.0015
	for _, f := range numtest.Must(numtest.Must(New(thin)).Review(Still, nil)) {
		if f.Key == "every.gate_wall" && f.Place != Below {
			t.Errorf("gate of 1.5 mm: %s", f.Text)
		}
		if strings.Contains(f.Key, "hoop") {
			t.Errorf("stretch judged without a stretch: %s", f.Text)
		}
	}
	if _, err := p.Review("every", nil); err == nil {
		t.Error("class every: no error")
	}
	// every class has its rules, and they are in range
	for _, c := range Classes() {
		card := RuleCards()[string(c)]
		for _, key := range []string{"hoop", "axial", "areal", "wall"} {
			if _, ok := card.Get(key); !ok {
				t.Errorf("class %s lacks %s", c, key)
			}
		}
	}
}
