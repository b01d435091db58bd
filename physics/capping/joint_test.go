package capping

import (
	"math"
	"testing"

	"costrel/unit"

	"pgregory.net/rapid"
)

func TestLiftForce(t *testing.T) {
	// 1e5 * pi/4 * 0.02² = 31.416 N
	if f, err := Lift(1e5, 20e-3); err != nil || math.Abs(f-31.4159) > 1e-3 {
		t.Errorf("lift %g N (%v), want 31.416", f, err)
	}
	if f, err := Lift(-3e4, 20e-3); err != nil || f >= 0 {
		t.Errorf("vacuum lifts %g N (%v), want a negative force", f, err)
	}
	for _, bad := range []struct {
		p unit.GaugePressure
		d float64
	}{{1e5, 0}, {1e5, 1}, {1e8, 0.02}, {-2e5, 0.02}, {unit.GaugePressure(math.NaN()), 0.02}, {1e5, math.NaN()}} {
		if f, err := Lift(bad.p, bad.d); err == nil {
			t.Errorf("%+v gave %g N", bad, f)
		}
	}
}

// The joint by hand: F0 400 N, share 0.5, 20 mm: at 6 bar the lift is 188.5 N,
// the seal keeps 305.8 and the thread carries 494.2 N.
func TestJointByHand(t *testing.T) {
	j := Joint{Preload: 400, Share: 0.5, Min: 20, Diameter: 20e-3}
	b, err := j.At(6e5, 0)
	if err != nil || math.Abs(b.Seal-305.75) > 0.01 || math.Abs(b.Thread-494.25) > 0.01 || math.Abs(b.Margin-285.75) > 0.01 {
		t.Errorf("at 6 bar: %+v (%v)", b, err)
	}
	// Two springs give the same: shell k_c, seal k_s, equal preload stretch.
	kc, ks := 3e6, 1e6
	share, err := SealShare(ks, kc)
	if err != nil {
		t.Fatal(err)
	}
	j.Share = share
	b, _ = j.At(6e5, 0)
	stretch := func(thread, seal float64) float64 { return thread/kc + seal/ks }
	if math.Abs(stretch(b.Thread, b.Seal)-stretch(400, 400)) > 1e-12 {
		t.Errorf("seal %g and thread %g N do not keep the joint together", b.Seal, b.Thread)
	}
	// A soft seal loses nothing, a stiff one all.
	if s, _ := SealShare(0, 1); s != 0 {
		t.Errorf("soft seal loses the share %g", s)
	}
	if s, _ := SealShare(1, 0); s != 1 {
		t.Errorf("stiff seal loses the share %g", s)
	}
	if _, err := SealShare(0, 0); err == nil {
		t.Error("a joint without stiffness has a share")
	}
	j.Share = 0.5
	if b, _ := j.At(3e6, 0); !b.Lifted || b.Seal != 0 || b.Thread != b.Lift {
		t.Errorf("at 30 bar: %+v, want it lifted and hanging on the thread", b)
	}
	if b, _ := j.At(0, 2000); !b.Slack || b.Thread != 0 || b.Seal != 2000 {
		t.Errorf("under 2000 N: %+v, want the thread slack", b)
	}
}

func TestJointProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := Joint{
			Preload:  rapid.Float64Range(0, 2000).Draw(t, "preload"),
			Share:    rapid.Float64Range(0, 1).Draw(t, "share"),
			Min:      rapid.Float64Range(0, 60).Draw(t, "min"),
			Diameter: rapid.Float64Range(0.015, 0.045).Draw(t, "diameter"),
		}
		p := unit.GaugePressure(rapid.Float64Range(-1e5, 3e6).Draw(t, "p"))
		top := rapid.Float64Range(0, 1000).Draw(t, "top")
		b, err := j.At(p, top)
		if err != nil {
			t.Fatal(err)
		}
		if b.Seal < 0 || b.Thread < 0 {
			t.Fatalf("negative force in %+v", b)
		}
		if math.Abs(b.Thread+top-b.Seal-b.Lift) > 1e-9*(1+b.Thread+top+math.Abs(b.Lift)) {
			t.Fatalf("forces do not balance: %+v under %g N", b, top)
		}
		more, err := j.At(p+1e4, top)
		if err != nil || more.Seal > b.Seal+1e-9 || more.Thread < b.Thread-1e-9 {
			t.Fatalf("more pressure: %+v after %+v (%v)", more, b, err)
		}
		leak, ok, err := j.LeakPressure()
		if err != nil {
			t.Fatal(err)
		}
		if ok && leak > 0 {
			at, err := j.At(leak, 0)
			if err != nil || math.Abs(at.Margin) > 1e-6*(1+j.Preload) {
				t.Fatalf("at the leak pressure %g: %+v (%v)", float64(leak), at, err)
			}
		}
		hold := rapid.Float64Range(0, 3000).Draw(t, "hold")
		q, err := j.LetGoPressure(hold)
		if err != nil {
			t.Fatal(err)
		}
		if q > 0 && q < pressureHigh {
			at, err := j.At(q, 0)
			if err != nil || math.Abs(at.Thread-hold) > 1e-6*(1+hold) {
				t.Fatalf("at the let-go pressure %g the thread carries %g, want %g (%v)", float64(q), at.Thread, hold, err)
			}
		}
	})
}

func TestJointRefuses(t *testing.T) {
	good := Joint{Preload: 400, Share: 0.5, Min: 20, Diameter: 20e-3}
	for _, change := range []func(*Joint){
		func(j *Joint) { j.Preload = -1 },
		func(j *Joint) { j.Share = 1.1 },
		func(j *Joint) { j.Share = math.NaN() },
		func(j *Joint) { j.Min = math.Inf(1) },
		func(j *Joint) { j.Diameter = 0 },
	} {
		j := good
		change(&j)
		if _, err := j.At(1e5, 0); err == nil {
			t.Errorf("%+v answered", j)
		}
		if _, _, err := j.LeakPressure(); err == nil {
			t.Errorf("%+v gave a leak pressure", j)
		}
		if _, err := j.LetGoPressure(100); err == nil {
			t.Errorf("%+v gave a let-go pressure", j)
		}
	}
	if _, err := good.At(1e5, math.NaN()); err == nil {
		t.Error("top weight NaN was accepted")
	}
	j := good
	j.Share = 0
	if _, ok, err := j.LeakPressure(); ok || err != nil {
		t.Errorf("a seal that loses nothing leaks: %v, %v", ok, err)
	}
	j.Preload = 10
	if p, ok, err := j.LeakPressure(); p != 0 || !ok || err != nil {
		t.Errorf("a loose closure: %g, %v, %v; want 0, true", float64(p), ok, err)
	}
	if p, err := good.LetGoPressure(300); p != 0 || err != nil {
		t.Errorf("a thread stripped while applying lets go at %g (%v), want 0", float64(p), err)
	}
}
