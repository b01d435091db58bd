package shell

import (
	"errors"
	"math"
	"strings"
	"testing"
)

// A slow pump comes to the state behind a roll-out that a snap comes to, also
// where a closed pack answers its pressure; what nothing carries is told with the
// last good load and its place.
func TestPumpBehindARollOut(t *testing.T) {
	b := demo(0.28e-3)
	b.Quick = true
	r, err := RollOut(RollOutInput{Bottle: b})
	if err != nil || !r.Snaps {
		t.Fatal(r.Snaps, err)
	}
	p := must(b.prepare(1))
	to := 1.5 * r.Snap
	model := func() *Model {
		return must(NewModel(p.mesh, Case{Face: Inner, Hard: p.hard, Supports: p.onRing(false, 0, 0)}))
	}
	pumped, snapped := model(), model()
	if err := pumped.pump(step{pressure: to}); err != nil {
		t.Fatal(err)
	}
	if err := snapped.reach(step{pressure: to}, 4); err != nil {
		t.Fatal(err)
	}
	if a, b := pumped.clearance(p), snapped.clearance(p); !(a < 0) || math.Abs(a/b-1) > 0.1 {
		t.Errorf("clearance %g m pumped, %g m snapped", a, b)
	}
	if q := pumped.snapped / r.Snap; q < 0.9 || q > 1.1 {
		t.Errorf("went through at %g Pa, the limit of the arc is %g Pa", pumped.snapped, r.Snap)
	}
	// A stiff headspace: the pressure falls with the room.
	shut := model()
	fall := to / (0.2 * shut.volume0)
	s := Stage{Sealed: func(gain float64) (float64, float64) { return 1.3*to - fall*gain, -fall }}.step(shut)
	if err := shut.pump(s); err != nil {
		t.Fatal(err)
	}
	if want, _ := s.sealed(shut.vol); math.Abs(shut.p/want-1) > 1e-9 {
		t.Errorf("%g Pa where the pack answers %g Pa", shut.p, want)
	}
	err = model().reach(step{pressure: 60e5}, 4)
	if !errors.Is(err, ErrNoConvergence) {
		t.Errorf("beyond all strength: %v", err)
	}
	if _, err := Grow(GrowInput{Bottle: b, Closed: &Stage{Pressure: 60e5}, Stages: []Stage{{Pressure: 1e5}}}); err == nil || !strings.Contains(err.Error(), " z = ") || !strings.Contains(err.Error(), "last good load") {
		t.Errorf("no place: %v", err)
	}
}

// A base that has rolled out comes back when the pressure falls to a vacuum, given or
// answered by a closed pack: the growth goes on, and says where.
func TestPumpFollowsABaseThatComesBack(t *testing.T) {
	b := demo(0.28e-3)
	b.Quick = true
	r, err := RollOut(RollOutInput{Bottle: b})
	if err != nil || !r.Snaps {
		t.Fatal(r.Snaps, err)
	}
	const out, vacuum = 1.2, -0.8 // of the roll-out
	p := must(b.prepare(1))
	m := must(NewModel(p.mesh, Case{Face: Inner, Hard: p.hard, Supports: p.onRing(false, 0, 0)}))
	if err := m.pump(step{pressure: out * r.Snap}); err != nil {
		t.Fatal(err)
	}
	hangs, wide := m.clearance(p), m.vol-m.volume0
	if err := m.reach(step{pressure: vacuum * r.Snap}, 4); err != nil {
		t.Fatal(err)
	}
	if stands := m.clearance(p); !(hangs < -3e-3) || !(stands > 3e-3) || !m.came || m.cameAt > 0.5*vacuum*r.Snap || m.cameAt < vacuum*r.Snap {
		t.Errorf("clearance %g m out, %g m under vacuum; came back %t at %g Pa", hangs, stands, m.came, m.cameAt)
	}
	// The gas of the closed pack is thinned by the base that is out: it draws more
	// than the vacuum that pulls it in, and less when it is in.
	narrow := m.vol - m.volume0
	slope := -0.9 * r.Snap / (wide - narrow)
	cold := &Stage{Sealed: func(gain float64) (float64, float64) { return vacuum*r.Snap + slope*(gain-wide), slope }}
	for _, back := range []*Stage{{Pressure: vacuum * r.Snap}, cold} {
		g, err := Grow(GrowInput{Bottle: b, Stages: []Stage{{Pressure: out * r.Snap}}, Back: back})
		if err != nil || !(g.End.Clearance < -3e-3) || !(g.Read.Clearance > 3e-3) || !strings.Contains(strings.Join(g.Warnings, "; "), "snaps back at") {
			t.Errorf("clearance %g m warm, %g m measured at %g Pa: %v %v", g.End.Clearance, g.Read.Clearance, g.Read.Pressure, g.Warnings, err)
		}
	}
}
