package shell

import (
	"math"
	"strings"
	"testing"
)

// A base that has rolled out stands on its middle, not on a ring in the air: the
// platen pushes it against the pressure over the patch on which it stands, p π r²
// of a membrane, to which its bending adds; the plane gives back what the platen
// brings. The filled pack then carries less than one whose base keeps its form.
func TestHangingBaseStandsOnItsMiddle(t *testing.T) {
	b := demo(0.28e-3)
	b.Quick, b.Sizing.Factor = true, 0.25 // the patch is told by nodes: short elements
	r, err := RollOut(RollOutInput{Bottle: b})
	if err != nil || !r.Snaps {
		t.Fatal(r.Snaps, err)
	}
	in := TopLoadInput{Bottle: b, Fill: Filled, Gauge: 1.6 * r.Snap, Ambient: 101325, Headspace: 2e-5}
	p := must(b.prepare(1))
	m := must(NewModel(p.mesh, Case{Face: Inner, Hard: p.hard, Supports: p.onRing(true, HoldR, HoldR|HoldRound|HoldZ)}))
	m.onFloor(p.ring)
	var out TopLoadResult
	if err := in.fill(m, p, &out); err != nil {
		t.Fatal(err)
	}
	low, _ := m.hanging()
	if out.Hang < 2e-3 || m.mesh.R[low] > 4e-3 || m.patch() > 4e-3 {
		t.Fatalf("hangs %g m at node %d, stands on %g m", out.Hang, low, m.patch())
	}
	start := -m.u[3*p.top+1]
	for _, d := range []float64{0.2e-3, 0.5e-3, 1e-3} {
		if err := m.solve(step{control: givenStroke, target: start + d, pressure: m.p}); err != nil {
			t.Fatal(d, err)
		}
		sum := 0.0
		m.touching(func(i int) {
			f, _ := m.push(i)
			sum += f
		})
		membrane := m.p * math.Pi * m.patch() * m.patch()
		if math.Abs(sum/m.load-1) > 1e-4 {
			t.Errorf("at %g m the plane gives %g N under %g N", d, sum, m.load)
		}
		if q := m.load / membrane; q < 0.8 || q > 2.5 {
			t.Errorf("at %g m, on a patch of %g m: %g N, membrane %g N", d, m.patch(), m.load, membrane)
		}
	}
	full, err := TopLoad(in)
	if err != nil || full.Hang != out.Hang || !strings.Contains(strings.Join(full.Warnings, " "), "below the standing ring") {
		t.Fatalf("hangs %g m: %v %v", full.Hang, full.Warnings, err)
	}
	in.Gauge = 49e5
	if _, err := TopLoad(in); err == nil || !strings.Contains(err.Error(), " z = ") || !strings.Contains(err.Error(), "last good load") {
		t.Errorf("no place: %v", err)
	}
	// What is told as the last good load is one that the wall bears.
	m = must(NewModel(p.mesh, Case{Face: Inner, Hard: p.hard, Supports: p.onRing(true, HoldR, HoldR|HoldRound|HoldZ)}))
	m.onFloor(p.ring)
	err = in.fill(m, p, &out)
	if use, _ := m.worst(); err == nil || use <= 1 {
		t.Fatalf("no broken wall: %g, %v", use, err)
	}
	_ = m.lost(err)
	if use, _ := m.worst(); use > 1 || use < 0.95 || m.p >= in.Gauge || m.limit > m.p {
		t.Errorf("last good load %g Pa (limit %g) at %.3f of the strength", m.p, m.limit, use)
	}
	in.Gauge = 0.5 * r.Snap
	firm, err := TopLoad(in)
	if err != nil || firm.Hang != 0 || full.Largest > firm.Largest {
		t.Errorf("a base that hangs carries %g N, one that keeps its form %g N, less pressed,: %v", full.Largest, firm.Largest, err)
	}
}

// A waist as wide as the standing ring, or narrower, is no place to stand on.
func TestStandsBelowItsWaist(t *testing.T) {
	for _, waist := range []float64{22e-3, 24e-3, 27e-3} {
		b := demo(0.28e-3)
		for i, q := range b.Stations {
			if x := (q.Z - 15e-3) / 40e-3; x > 0 && x < 1 {
				b.Stations[i].R += (waist - q.R) * math.Pow(math.Sin(math.Pi*x), 2)
			}
		}
		for _, stand := range []float64{waist - 0.1e-3, waist, waist + 0.1e-3} {
			b.Stand = stand
			for _, size := range []float64{1, 2} {
				p := must(b.prepare(size))
				r := p.mesh.R[p.ring] + 0.5*p.mesh.T[p.ring]*p.mesh.NR[p.ring]
				if z := p.mesh.Z[p.ring]; z > 15e-3 || math.Abs(r-stand) > 0.2e-3 {
					t.Errorf("waist %g m, standing radius %g m: stands at z %g m, radius %g m", waist, stand, z, r)
				}
			}
		}
	}
}
