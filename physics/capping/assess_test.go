package capping

import (
	"math"
	"strings"
	"testing"

	"costrel/unit"
)

func TestOpen(t *testing.T) {
	f, c := find(t, "28-short-csd", "hdpe-28-short")
	// 1.0 mm at 2.7 mm a turn is 133.3°, 0.7 mm is 93.3°; 650-133.3 = 516.7° left.
	o, err := Open(f, c, 4e5)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range []struct {
		what      string
		got, want float64
	}{
		{"seal angle", deg(o.SealAngle), 133.333},
		{"band angle", deg(o.BandAngle), 93.333},
		{"difference", deg(o.Difference), 40},
		{"engaged", o.Engaged, 516.667 / 360},
		{"lift", o.Lift, 195.408},
	} {
		if math.Abs(v.got/v.want-1) > 1e-4 {
			t.Errorf("%s %g, want %g", v.what, v.got, v.want)
		}
	}
	if o.Warnings != nil || o.Margin < 2 {
		t.Errorf("margin %g, warnings %q", o.Margin, o.Warnings)
	}
	wrong := c
	wrong.BandTravel = 1.2e-3
	if o, err := Open(f, wrong, 4e5); err != nil || !strings.Contains(strings.Join(o.Warnings, " "), "before the bridges") {
		t.Errorf("late band: %q, %v", o.Warnings, err)
	}
	late := c
	late.SealTravel = 6e-3 // beyond the thread
	if o, err := Open(f, late, 4e5); err != nil || o.Engaged != 0 || !strings.Contains(strings.Join(o.Warnings, " "), "after the thread has ended") {
		t.Errorf("late seal: %q, %v", o.Warnings, err)
	}
	weak := c
	weak.HoldingStress = 0.5e6
	if o, err := Open(f, weak, 4e5); err != nil || !strings.Contains(strings.Join(o.Warnings, " "), "may leave the neck") {
		t.Errorf("weak thread: %q, %v", o.Warnings, err)
	}
	if o, err := Open(f, late, 0); err != nil || o.Warnings != nil || o.Margin != 0 {
		t.Errorf("still pack: %+v, %v", o, err)
	}
	bare := c
	bare.Bridges = 0
	if o, err := Open(f, bare, 4e5); err != nil || o.HasBand || o.BandAngle != 0 || o.Difference != 0 {
		t.Errorf("no band: %+v, %v", o, err)
	}
	tall, _ := find(t, "28-tall-csd", "hdpe-28-tall")
	if _, err := Open(tall, c, 0); err == nil {
		t.Error("the short closure opened on the tall neck")
	}
}

func TestAssess(t *testing.T) {
	f, c := find(t, "28-short-csd", "hdpe-28-short")
	r, err := Assess(Input{Finish: f, Closure: c, Torque: 1.9, States: TestStates(true), Opening: 4e5})
	if err != nil {
		t.Fatal(err)
	}
	if len(r.States) != 2 || math.Abs(r.States[1].Lift-589.64) > 0.01 {
		t.Errorf("states %+v", r.States)
	}
	if r.Relaxed >= r.Preload || r.Removal >= r.Torque || r.States[0].Removal >= r.Removal {
		t.Errorf("preload %g, relaxed %g, removal %g, under pressure %g", r.Preload, r.Relaxed, r.Removal, r.States[0].Removal)
	}
	if !r.Leaks || r.LeakPressure <= 0 || r.LetGoPressure < 12.07e5 {
		t.Errorf("leak %g, let go %g Pa(g)", float64(r.LeakPressure), float64(r.LetGoPressure))
	}
	all := unit.Spell(strings.Join(r.Warnings, "\n"), unit.EU)
	if !strings.Contains(all, "low-confidence values of closure hdpe-28-short") || !strings.Contains(all, "holding_stress") {
		t.Errorf("no warning about low confidence in\n%s", all)
	}
	if strings.Contains(all, "comes off") || strings.Contains(all, "window") {
		t.Errorf("default closure warns\n%s", all)
	}
	again, err := Assess(Input{Finish: f, Closure: c, Torque: 1.9, States: TestStates(true), Opening: 4e5})
	if err != nil || again.Removal != r.Removal {
		t.Errorf("second answer differs: %g, %g, %v", again.Removal, r.Removal, err)
	}
}

func TestAssessWarns(t *testing.T) {
	f, c := find(t, "28-short-csd", "hdpe-28-short")
	in := Input{Finish: f, Closure: c, Torque: 1.0, States: []State{{Name: "oven", Pressure: 30e5}, {Name: "stack", TopWeight: 600}}}
	r, err := Assess(in)
	if err != nil {
		t.Fatal(err)
	}
	all := unit.Spell(strings.Join(r.Warnings, "\n"), unit.EU)
	for _, want := range []string{"application torque 1.00", "oven, 30.00 bar(g): force on the thread", "top weight 600 N", "plug"} {
		if !strings.Contains(all, want) {
			t.Errorf("no %q in\n%s", want, all)
		}
	}
	for _, bad := range []float64{0, -1, 20, math.NaN()} {
		in.Torque = bad
		if _, err := Assess(in); err == nil {
			t.Errorf("torque %g was accepted", bad)
		}
	}
	in.Torque = 1.5
	in.States = []State{{Name: "void", Pressure: unit.GaugePressure(math.NaN())}}
	if _, err := Assess(in); err == nil || !strings.Contains(err.Error(), "void") {
		t.Errorf("pressure NaN: %v, want an error that names the state", err)
	}
	in.States, in.Opening = nil, unit.GaugePressure(math.Inf(1))
	if _, err := Assess(in); err == nil {
		t.Error("an infinite opening pressure was accepted")
	}
	// A slippery three-start thread is not self-locking.
	f, c = find(t, "38-3start-hotfill", "hdpe-38-hotfill")
	c.ThreadFriction = 0.05
	r, err = Assess(Input{Finish: f, Closure: c, Torque: 2.4})
	if err != nil || !strings.Contains(strings.Join(r.Warnings, "\n"), "turning off") {
		t.Errorf("slippery thread: %q, %v", r.Warnings, err)
	}
}

func TestStack(t *testing.T) {
	// One pallet of 4 layers: three packs above, 3*2*9.80665.
	s := Stack{PackMass: 2, Layers: 4, Pallets: 1, PalletMass: 25, PerLayer: 80, Factor: 1}
	if f, err := s.Load(); err != nil || math.Abs(f-58.84) > 0.01 {
		t.Errorf("load %g N (%v), want 58.84", f, err)
	}
	s.Layers = 1
	if f, err := s.Load(); err != nil || f != 0 {
		t.Errorf("a single layer carries %g N (%v)", f, err)
	}
	for _, change := range []func(*Stack){
		func(s *Stack) { s.Layers = 0 },
		func(s *Stack) { s.Pallets = 99 },
		func(s *Stack) { s.PerLayer = 0 },
		func(s *Stack) { s.PackMass = math.NaN() },
		func(s *Stack) { s.Factor = 0 },
	} {
		bad := s
		change(&bad)
		if _, err := bad.Load(); err == nil {
			t.Errorf("%+v was accepted", bad)
		}
	}
	f, _ := find(t, "28-short-csd", "hdpe-28-short")
	// 446.2 N over 122.43 mm².
	p, warn, err := LandPressure(f, 446.2, 446)
	if err != nil || math.Abs(p-3.6446e6) > 1e3 || warn != nil {
		t.Errorf("land pressure %g Pa, %q, %v", p, warn, err)
	}
	if _, warn, _ := LandPressure(f, 446, 500); len(warn) != 1 {
		t.Errorf("500 N: %q, want one warning", warn)
	}
	if _, _, err := LandPressure(f, math.NaN(), 0); err == nil {
		t.Error("force NaN was accepted")
	}
}

func TestCautions(t *testing.T) {
	if c := Cautions(0); c != nil {
		t.Errorf("still pack: %v", c)
	}
	low, high := Cautions(4e5), Cautions(12e5)
	if len(low) != 4 || len(high) != 5 || !strings.Contains(low[0].Text, "missiling") {
		t.Errorf("%d and %d cautions", len(low), len(high))
	}
}
