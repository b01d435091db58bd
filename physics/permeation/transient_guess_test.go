package permeation

import (
	"math"
	"slices"
	"testing"

	"costrel/num/stiff"
)

// TestGuessOfAParabola: rates that follow a parabola in time are foretold
// exactly once three are known, those of a straight line once two are; the
// pressures too.
func TestGuessOfAParabola(t *testing.T) {
	tab := stiff.ESDIRK4()
	m := &model{small: atCreep}
	rate := func(x float64) float64 { return 3 - 2*x + 5*x*x }
	k := make([][]float64, len(tab.A))
	a, y := make([]float64, atCreep+1), make([]float64, atCreep+1)
	g := newGuess(len(tab.A))
	for n, start := range []float64{0, 1} {
		g.begin(start, [gases]float64{rate(start), 1, 1})
		if n == 0 {
			k[0] = slices.Repeat([]float64{rate(start)}, len(y))
		} else {
			k[0], k[len(k)-1] = k[len(k)-1], k[0]
		}
		for i := 1; i < len(tab.A); i++ {
			at := start + tab.C[i]
			for j := range k {
				if k[j] == nil {
					k[j] = make([]float64, len(y))
				}
			}
			p := g.put(m, at, a, y, k, tab.Gamma)
			if got, want := y[atCreep], tab.Gamma*rate(at); i >= 3 && (math.Abs(got-want) > 1e-12 || math.Abs(p[0]-rate(at)) > 1e-12) {
				t.Errorf("step %d, stage %d: %g and %g, want %g and %g", n, i, got, p[0], want, rate(at))
			}
			k[i] = slices.Repeat([]float64{rate(at)}, len(y))
			g.add(at, [gases]float64{rate(at), 1, 1})
		}
	}
	if !g.old {
		t.Error("the second step does not know the first")
	}
}

// TestStraightSlab: the elimination that a slab by Henry's law keeps answers as
// the general one does, new and used again, coated and bare.
func TestStraightSlab(t *testing.T) {
	p, err := half.pack(change{})
	if err != nil {
		t.Fatal(err)
	}
	p.Zones[1].Inner, p.Zones[2].Outer = Coating{Oxygen: 1e-15, Nitrogen: 2e-15}, Coating{Oxygen: 3e-15}
	m := newModel(p, steps(t, []float64{22}, []float64{10}), 7, stiff.ESDIRK4())
	m.stop = 10 * day
	y, err := m.start()
	if err != nil {
		t.Fatal(err)
	}
	a := slices.Clone(y)
	for i := range a {
		a[i] *= 1 + 0.01*math.Sin(float64(i))
	}
	for _, h := range []float64{1e3, 1e3, 1e5} { // the second finds it kept
		for i := range m.slabs {
			s := &m.slabs[i]
			if !s.straight() {
				continue
			}
			s.linear(a, y, h, 3e4, 2e4)
			step, answer := slices.Clone(s.step), slices.Clone(s.answer)
			c := *s
			c.diag, c.up, c.down, c.step, c.answer = make([]float64, 7), make([]float64, 7), make([]float64, 7), make([]float64, 7), make([]float64, 7)
			c.general(a, y, h, 3e4, 2e4)
			for j := range step {
				if math.Abs(step[j]-c.step[j]) > 1e-12*s.scale || math.Abs(answer[j]-c.answer[j]) > 1e-12*math.Abs(c.answer[0]) {
					t.Fatalf("%s in zone %d, step %g s, cell %d: %g and %g, want %g and %g", s.gas, s.zone, h, j, step[j], answer[j], c.step[j], c.answer[j])
				}
			}
		}
	}
}

// TestTraceIsTheBeginning: at 40 Pa the straight line holds and passes what the
// dual-mode law does, within b p = 1.3e-4.
func TestTraceIsTheBeginning(t *testing.T) {
	for _, name := range []string{"wall", "amorphous", "pef", "hdpe"} {
		m, err := Named(name)
		if err != nil {
			t.Fatal(err)
		}
		full := m.CO2.At(295.15)
		line := full.trace()
		for what, v := range map[string][2]float64{"held": {line.Concentration(40), full.Concentration(40)}, "passed": {line.Permeability(40), full.Permeability(40)}} {
			if math.Abs(v[0]/v[1]-1) > 1.5e-4 {
				t.Errorf("%s: %s %g, want %g", name, what, v[0], v[1])
			}
		}
	}
}
