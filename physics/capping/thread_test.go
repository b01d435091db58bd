package capping

import (
	"math"
	"testing"

	"costrel/physics/closure"
	"costrel/physics/finish"

	"pgregory.net/rapid"
)

func find(t testing.TB, f, c string) (finish.Finish, closure.Closure) {
	t.Helper()
	neck, err := finish.Find(f)
	if err != nil {
		t.Fatal(err)
	}
	k, err := closure.Find(c)
	if err != nil {
		t.Fatal(err)
	}
	return neck, k
}

// A frictionless seal on a square thread is the textbook power screw:
// T = F d/2 (pi mu d + L)/(pi d - mu L).
func TestSquareThread(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Thread{
			Diameter: rapid.Float64Range(0.02, 0.04).Draw(t, "d"),
			Lead:     rapid.Float64Range(0.002, 0.009).Draw(t, "lead"),
			Friction: rapid.Float64Range(0.02, 0.4).Draw(t, "mu"),
		}
		d, l, mu := s.Diameter, s.Lead, s.Friction
		raise, err1 := s.ApplicationLever()
		lower, err2 := s.RemovalLever()
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		if want := d / 2 * (math.Pi*mu*d + l) / (math.Pi*d - mu*l); math.Abs(raise-want) > 1e-12 {
			t.Fatalf("raising %g m, textbook %g", raise, want)
		}
		if want := d / 2 * (math.Pi*mu*d - l) / (math.Pi*d + mu*l); math.Abs(lower-want) > 1e-12 {
			t.Fatalf("lowering %g m, textbook %g", lower, want)
		}
		if s.SelfLocking() != (lower > 0) {
			t.Fatalf("self-locking %v with a removal lever of %g m", s.SelfLocking(), lower)
		}
		force := rapid.Float64Range(1, 1000).Draw(t, "force")
		torque, err := s.Application(force, 0.2)
		if err != nil {
			t.Fatal(err)
		}
		back, err := s.SealForce(torque, 0.2)
		if err != nil || math.Abs(back-force) > 1e-9*force {
			t.Fatalf("%g N came back as %g (%v)", force, back, err)
		}
	})
}

func TestRemoval(t *testing.T) {
	s := reference(0.15)
	// Without pressure both forces are equal: 100 N * 3.282 mm.
	if got, err := s.Removal(100, 100, 0.1); err != nil || math.Abs(got-0.4282) > 1e-4 {
		t.Errorf("removal %g N·m (%v), want 0.428", got, err)
	}
	// Pressure loads the thread and unloads the seal: 12.9 mm * tan(6.753°) and 1.755 mm.
	if got, err := s.Removal(50, 150, 0); err != nil || math.Abs(got-(150*1.5275e-3+50*1.755e-3)) > 1e-3 {
		t.Errorf("removal under pressure %g N·m (%v)", got, err)
	}
	if f, err := s.SealForce(0.1, 0.3); err != nil || f != 0 {
		t.Errorf("a torque below the band's gives %g N (%v), want 0", f, err)
	}
	steep := Thread{Diameter: 0.02, Lead: 0.01, Friction: 0.1}
	if got, err := steep.Removal(0, 100, 0); err != nil || got >= 0 || steep.SelfLocking() {
		t.Errorf("steep thread: removal %g N·m (%v), self-locking %v; want it to turn off by itself", got, err, steep.SelfLocking())
	}
}

func TestThreadRefuses(t *testing.T) {
	for _, change := range []func(*Thread){
		func(s *Thread) { s.Diameter = 0 },
		func(s *Thread) { s.Lead = 1 },
		func(s *Thread) { s.Flank = 1.2 },
		func(s *Thread) { s.Friction = 0 },
		func(s *Thread) { s.Friction = math.NaN() },
		func(s *Thread) { s.SealFriction = -0.1 },
		func(s *Thread) { s.SealRadius = 1 },
	} {
		s := reference(0.15)
		change(&s)
		_, err1 := s.ApplicationLever()
		_, err2 := s.RemovalLever()
		_, err3 := s.Application(100, 0)
		_, err4 := s.SealForce(1, 0)
		_, err5 := s.Removal(1, 1, 0)
		for _, err := range []error{err1, err2, err3, err4, err5} {
			if err == nil {
				t.Errorf("%+v answered", s)
			}
		}
	}
	s := reference(0.15)
	if _, err := s.SealForce(math.NaN(), 0); err == nil {
		t.Error("torque NaN was accepted")
	}
	if _, err := s.Application(-1, 0); err == nil {
		t.Error("force -1 was accepted")
	}
	if _, err := s.Removal(1, -1, 0); err == nil {
		t.Error("force -1 was accepted")
	}
	f, _ := find(t, "28-short-csd", "hdpe-28-short")
	_, c := find(t, "28-tall-csd", "hdpe-28-tall")
	if _, err := NewThread(f, c); err == nil {
		t.Error("the tall closure went on the short neck")
	}
}

func TestHold(t *testing.T) {
	f, c := find(t, "28-short-csd", "hdpe-28-short")
	// 1 MPa * pi * 25.8 mm * 2.7 mm * (1-0.08982) for one turn.
	h, err := HoldingForce(f, 1e6, 1)
	if err != nil || math.Abs(h-199.19) > 0.05 {
		t.Errorf("one turn holds %g N (%v), want 199.2", h, err)
	}
	if h, err := HoldingForce(f, c.HoldingStress, 0); err != nil || h != 0 {
		t.Errorf("no turn holds %g N (%v)", h, err)
	}
	for _, bad := range [][2]float64{{-1, 1}, {1e6, 3}, {1e6, math.NaN()}} {
		if _, err := HoldingForce(f, bad[0], bad[1]); err == nil {
			t.Errorf("%v was accepted", bad)
		}
	}
	if _, err := BridgeTorque(-1, 1, 1, 1); err == nil {
		t.Error("-1 bridges were accepted")
	}
	if _, err := BridgeTorque(1, 1, math.NaN(), 1); err == nil {
		t.Error("strength NaN was accepted")
	}
	if tq, err := BridgeTorque(0, 1, 1, 1); err != nil || tq != 0 {
		t.Errorf("no bridges: %g (%v)", tq, err)
	}
}
