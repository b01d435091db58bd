package shell

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// at is what a place leaves of a buckle at a load, by the two formulas alone.
func (w waveBound) at(load float64) (own, plain float64) {
	w.c.Load = load
	w.borne = math.Min(w.borne, load)
	return w.load()
}

// Above the reach no place leaves less than the lowest yet, just below it one
// does: the search stops neither early nor late.
func TestReachMissesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var walls []waveBound
		for range rapid.IntRange(1, 5).Draw(t, "places") {
			walls = append(walls, waveBound{
				k:     Knockdown{Gamma: rapid.Float64Range(0.1, 1).Draw(t, "gamma")},
				borne: rapid.SampledFrom([]float64{0, 1, 120, 900}).Draw(t, "borne"), classical: rapid.Float64Range(0, 2000).Draw(t, "classical"),
			})
		}
		own := rapid.Float64Range(1, 1000).Draw(t, "own")
		plain := own * rapid.Float64Range(1, 5).Draw(t, "plain")
		most := (&TopLoadInput{}).reach(walls, own, plain)
		less := func(load float64) bool {
			for _, w := range walls {
				if o, p := w.at(load); o < own*(1-1e-9) || p < plain*(1-1e-9) {
					return true
				}
			}
			return false
		}
		for _, times := range []float64{1, 1.01, 1.5, 10} {
			if less(most * times) {
				t.Fatalf("a buckle at %g times the reach of %g counts", times, most)
			}
		}
		if !less(most * 0.999) {
			t.Fatalf("the reach of %g is too far", most)
		}
	})
}

// The buckles of a harmonic come one by one from the lowest, all that a count of
// negative pivots says, and none twice.
func TestBucklesAreAll(t *testing.T) {
	var wall []Station // a barrel with two waists
	for i := range 121 {
		x := float64(i) / 120
		wall = append(wall, Station{Z: 0.12 * x, R: 30e-3 + 4e-3*math.Cos(4*math.Pi*x), Wall: (0.3 + 0.15*x) * 1e-3, Ply: Even(refPly)})
	}
	mesh := must(Build(wall, Sizing{Middle: true}))
	m := must(NewModel(mesh, Case{Face: Mid, Open: true, Supports: []Support{{Node: 0, Axial: HoldR | HoldZ}, {Node: len(mesh.R) - 1, Axial: HoldR, Harmonic: HoldR | HoldRound}}}))
	a := m.snap(0, 0)
	if err := m.Nonlinear(Load{Force: 100}, 1); err != nil {
		t.Fatal(err)
	}
	b := m.snap(100, 1)
	const most = 1800.0
	got := map[int][]float64{}
	waves := []int{1, 2, 3, 5, 8}
	err := m.buckles(a, b, waves, func(c Critical) error {
		got[c.Harmonic] = append(got[c.Harmonic], c.Load)
		return nil
	}, func(int) float64 { return most })
	if err != nil {
		t.Fatal(err)
	}
	all := 0
	for _, n := range waves {
		m.line(a.pre, b.pre, n)
		want, err := m.harm.pen.Count(m.harm.K, m.harm.G, most/100)
		if err != nil || want != len(got[n]) {
			t.Errorf("%d waves: %d buckles of %d: %v %v", n, len(got[n]), want, got[n], err)
		}
		for k := 1; k < len(got[n]); k++ {
			if got[n][k] < got[n][k-1] {
				t.Errorf("%d waves: %v", n, got[n])
			}
		}
		all += want
	}
	if all < 10 {
		t.Errorf("%d buckles are too few for this test", all)
	}
}
