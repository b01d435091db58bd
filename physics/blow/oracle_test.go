package blow

import (
	"context"
	"math"
	"testing"

	"costrel/unit"
)

// nominal is the preform of the oracle: 22 mm outside, 3 mm wall, 75 mm body.
func nominal() Preform { return Straight(16e-3, 3e-3, 75e-3, 2.25e-3) }

func oracle(T float64) Case {
	c := DefaultCase()
	c.Preform = nominal()
	c.Heat.Uniform = unit.Celsius(T)
	c.Numbers.Isothermal, c.Numbers.MidContact, c.Numbers.Rate = true, true, RateNetwork
	c.Numbers.FrameEvery = 0
	c.Recipe.Ambient = 101300
	return c
}

// freeBlow is the free stretch-blow of the oracle.
func freeBlow(T float64) Case {
	c := oracle(T)
	c.Numbers.StepMost = 5e-4
	r := &c.Recipe
	r.Pre = Stage{Pressure: 9e5, Area: 8e-6, Discharge: 1}
	r.High = Stage{}
	r.DeadVolume = 30e-6
	r.Rod = Rod{Speed: 1, Stop: 200.4e-3, Radius: 5.5e-3}
	r.Duration = 0.2
	return c
}

func run(t testing.TB, c Case) *Result {
	t.Helper()
	r, err := Run(context.Background(), c, nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// at interpolates a course.
func at(r *Result, t float64, f func(Moment) float64) float64 {
	h := r.History
	for i := 1; i < len(h); i++ {
		if h[i].Time >= t {
			w := (t - h[i-1].Time) / (h[i].Time - h[i-1].Time)
			return f(h[i-1])*(1-w) + f(h[i])*w
		}
	}
	return f(h[len(h)-1])
}

var freeTable = []struct {
	T, peak, peakAt, v100, v150, v200, widest, rod float64
}{
	{95, 8.68, 40, 284, 479, 627, 34.2, 370},
	{100, 7.80, 34, 372, 565, 702, 35.6, 217},
	{105, 6.47, 28, 423, 617, 759, 36.8, 134},
	{110, 5.19, 23, 479, 670, 824, 38.4, 83},
}

func TestFreeBlowOracle(t *testing.T) {
	for _, o := range freeTable {
		r := run(t, freeBlow(o.T))
		vol := func(m Moment) float64 { return m.Volume * 1e6 }
		got := []float64{r.PeakPre / 1e5, r.PeakPreAt * 1e3, at(r, 0.1, vol), at(r, 0.15, vol), at(r, 0.2, vol), r.History[len(r.History)-1].Widest * 1e3, r.PeakRod}
		want := []float64{o.peak, o.peakAt, o.v100, o.v150, o.v200, o.widest, o.rod}
		t.Logf("%g °C: %.3f bar @%.1f ms, V %.1f %.1f %.1f mL, r %.2f mm, rod %.1f N; steps %d iter %d rej %d; want %v", o.T, got[0], got[1], got[2], got[3], got[4], got[5], got[6], r.Steps, r.Iterations, r.Rejected, want)
		for i, g := range got {
			tol := 0.02 * want[i]
			if i == 1 {
				tol = 1.5
			}
			if math.Abs(g-want[i]) > tol {
				t.Errorf("  item %d: %.3f, want %.3f (%+.2f %%)", i, g, want[i], 100*(g/want[i]-1))
			}
		}
	}
}
