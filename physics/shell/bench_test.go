package shell

import (
	"math"
	"testing"
)

func must[T any](x T, err error) T {
	if err != nil {
		panic(err)
	}
	return x
}

func bench500() (*Mesh, int) {
	m, ring, _ := referenceBottle(0.448e-3, true, Isotropic(3e9, .38))
	return m, ring
}

func BenchmarkLinear500(b *testing.B) {
	m, ring := bench500()
	mo := must(NewModel(m, Case{Face: Inner, Supports: []Support{{Node: ring, Axial: HoldZ}}}))
	b.ReportAllocs()
	for b.Loop() {
		if err := mo.linear(Load{Pressure: 4e5}); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(len(m.el)), "elements")
}

func BenchmarkNonlinear500(b *testing.B) {
	m, ring := bench500()
	mo := must(NewModel(m, Case{Face: Inner, Supports: []Support{{Node: ring, Axial: HoldZ}}}))
	b.ReportAllocs()
	for b.Loop() {
		mo.Reset()
		if err := mo.Nonlinear(Load{Pressure: 4e5}, 1); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCreep500(b *testing.B) {
	m, ring := bench500()
	mo := must(NewModel(m, Case{Creep: DefaultFindley(), Supports: []Support{{Node: ring, Axial: HoldZ}}}))
	for b.Loop() {
		mo.Reset()
		if err := mo.reach(step{pressure: 4e5}, 4); err != nil {
			b.Fatal(err)
		}
		for i := range 10 {
			if err := mo.solve(step{pressure: 4e5, dt: 86.4 * math.Pow(2.15, float64(i))}); err != nil {
				b.Fatal(err)
			}
		}
	}
}

func BenchmarkBurst500(b *testing.B) {
	d := round(0.28e-3)
	d.Quick, d.Sizing.Factor = true, 0.35*278/500
	for b.Loop() {
		r, err := Burst(BurstInput{Bottle: d})
		if err != nil || r.Mesh.Elements < 495 {
			b.Fatal(r.Mesh.Elements, err)
		}
	}
}

func BenchmarkBuckling500(b *testing.B) {
	m, ring := bench500()
	mo := must(NewModel(m, Case{Face: Inner, Supports: []Support{{Node: ring, Axial: HoldR | HoldZ}, {Node: len(m.R) - 1, Axial: HoldR, Harmonic: HoldR | HoldRound}}}))
	for b.Loop() {
		c, err := mo.Buckling(Eigen{Varying: Load{Force: 1000}, Hint: 1})
		if err != nil || len(c) != 16 {
			b.Fatal(err)
		}
	}
}
