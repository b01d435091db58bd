package stat

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestFirstHarmonicByHand(t *testing.T) {
	h, err := FirstHarmonic([]float64{0.294, 0.314, 0.310, 0.289})
	if err != nil {
		t.Fatal(err)
	}
	// a = (0.294-0.310)/2, b = (0.314-0.289)/2
	near(t, "amplitude", h.Amplitude, math.Hypot(0.008, 0.0125), 1e-12)
	near(t, "phase", h.Phase, math.Atan2(0.0125, -0.008), 1e-12)
	near(t, "spread", h.Spread, 0.025/0.30175, 1e-12)
	round, err := FirstHarmonic([]float64{2, 2, 2, 2})
	if err != nil || round.Amplitude != 0 || round.Phase != 0 {
		t.Errorf("%+v, %v", round, err)
	}
	for _, bad := range [][]float64{{1, 2}, {-1, -2, -3}} {
		if _, err := FirstHarmonic(bad); err == nil {
			t.Errorf("%v: no error", bad)
		}
	}
}

func TestFirstHarmonicRecoversACosine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 12).Draw(t, "n")
		amp := rapid.Float64Range(0.01, 0.4).Draw(t, "amplitude")
		phase := rapid.Float64Range(0, 6.28).Draw(t, "phase")
		x := make([]float64, n)
		for i := range x {
			x[i] = 1 + amp*math.Cos(2*math.Pi*float64(i)/float64(n)-phase)
		}
		h, err := FirstHarmonic(x)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(h.Amplitude-amp) > 1e-12 || math.Abs(math.Remainder(h.Phase-phase, 2*math.Pi)) > 1e-9 {
			t.Fatalf("%+v, want %g at %g", h, amp, phase)
		}
	})
}

func TestAlign(t *testing.T) {
	same, err := Align([]float64{0.1, 6.2, 0.05, 0.02})
	if err != nil {
		t.Fatal(err)
	}
	if same.Length < 0.99 || same.P > 0.05 || same.Hi-same.Lo > 0.2 {
		t.Errorf("%+v", same)
	}
	even, err := Align([]float64{0, math.Pi / 2, math.Pi, 3 * math.Pi / 2})
	if err != nil || even.Length > 1e-12 || even.P < 0.9 {
		t.Errorf("%+v, %v", even, err)
	}
	if _, err := Align([]float64{1}); err == nil {
		t.Error("one phase: no error")
	}
}
