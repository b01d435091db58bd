package shell

import (
	"math"
	"testing"
)

// A search that begins at a state known from another test ends where one from
// rest does: softer, stiffer and coarser walls, closed packs and given pressures,
// below and beyond a base that rolls out, in any order.
func TestStartsSaveOnlyTheWay(t *testing.T) {
	for name, plain := range map[string]Bottle{"push-up": demo(0.3e-3), "round": round(0.28e-3)} {
		plain.Quick = true
		known, err := plain.Meshed()
		if err != nil {
			t.Fatal(err)
		}
		snaps, stays := 0, 0
		for k, bar := range []float64{1, 1.15, 4, 0.6, 2, 2.6, 3.1, 0.3, 5, 1.6, 0.5, 0.9} {
			s := Stage{Pressure: bar * 1e5}
			if k%3 == 1 { // a closed pack with 20 mL of gas
				s.Sealed = func(gain float64) (float64, float64) {
					v := 20e-6 + gain
					return (bar*1e5+1e5)*20e-6/v - 1e5, -(bar*1e5 + 1e5) * 20e-6 / (v * v)
				}
			}
			change := func(b Bottle) Bottle {
				st := append([]Station{}, b.Stations...)
				for i := range st {
					for j := range st[i].Ply {
						st[i].Ply[j].Es *= 1 + 0.1*float64(k%4)
						st[i].Ply[j].Eh *= 1 + 0.1*float64(k%4)
					}
				}
				if k%4 > 0 {
					b.Stations = st
				}
				if k%5 == 4 {
					b.Sizing.Factor = 0.6
				}
				return b
			}
			a, err1 := Grow(GrowInput{Bottle: change(plain), Stages: []Stage{s}})
			b, err2 := Grow(GrowInput{Bottle: change(known), Stages: []Stage{s}})
			if (err1 == nil) != (err2 == nil) {
				t.Fatalf("%s at %g bar: from rest %v, from a start %v", name, bar, err1, err2)
			}
			if err1 != nil {
				continue
			}
			if (a.Snap > 0) != (b.Snap > 0) {
				t.Errorf("%s at %g bar: snaps at %g Pa from rest, %g Pa from a start", name, bar, a.Snap, b.Snap)
			}
			for _, f := range []struct {
				what string
				x, y float64
			}{{"diameter", a.End.Diameter, b.End.Diameter}, {"height", a.End.Height, b.End.Height}, {"volume", a.End.Volume, b.End.Volume}, {"clearance", a.End.Clearance, b.End.Clearance}, {"pressure", a.End.Pressure, b.End.Pressure}} {
				if math.Abs(f.x-f.y) > 2e-4*math.Abs(f.x)+1e-8 {
					t.Errorf("%s at %g bar: %s %g from rest, %g from a start", name, bar, f.what, f.x, f.y)
				}
			}
			if a.Snap > 0 {
				snaps++
			} else {
				stays++
			}
		}
		if n := len(known.kept.starts.seen); n < 3 || stays < 3 || (name == "push-up" && snaps == 0) {
			t.Errorf("%s: %d starts kept, %d states that snapped and %d that did not: the test does not see what it is for", name, n, snaps, stays)
		}
	}
}

// A base that has rolled out is no start, also where the search from rest jumped
// behind the limit at once and nobody saw it snap.
func TestRolledOutIsNoStart(t *testing.T) {
	b := demo(0.3e-3)
	b.Quick = true
	known, err := b.Meshed()
	if err != nil {
		t.Fatal(err)
	}
	p, err := known.prepare(1)
	if err != nil {
		t.Fatal(err)
	}
	m, err := NewModel(p.mesh, Case{Face: Inner, Hard: p.hard, Supports: p.onRing(false, 0, 0)})
	if err != nil {
		t.Fatal(err)
	}
	s := step{pressure: 5e5}
	if err := m.bring(s, 4); err != nil || m.clearance(p) > 0 {
		t.Fatalf("clearance %g m under %g Pa: %v", m.clearance(p), m.p, err)
	}
	m.snapped = 0 // as where nobody has seen it
	var k starts
	if k.note(m, s); m.domed() || len(k.seen) > 0 {
		t.Errorf("clearance %g m: %d starts", m.clearance(p), len(k.seen))
	}
	m.Reset()
	s.pressure = 2e4
	if err := m.bring(s, 4); err != nil {
		t.Fatal(err)
	}
	if k.note(m, s); !m.domed() || len(k.seen) != 1 {
		t.Errorf("clearance %g m under %g Pa: %d starts", m.clearance(p), m.p, len(k.seen))
	}
}
