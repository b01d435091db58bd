package shell

import (
	"fmt"
	"math"
	"testing"
)

func TestProbe2(t *testing.T) {
	p := Isotropic(3e9, .38)
	for _, h := range []float64{1e-3, .5e-3, .25e-3} {
		m, ring, err := referenceBottle(h, true, p)
		if err != nil {
			t.Fatal(err)
		}
		mo := must(NewModel(m, Case{Face: Inner, Supports: []Support{{Node: ring, Axial: HoldZ}}}))
		l := must(mo.Linear(Load{Pressure: 4e5}))
		show := func(st []Stress, u []float64) {
			mm, mh, zm, zh := 0.0, 0.0, 0.0, 0.0
			mi := 0.0
			for _, s := range st {
				if x := math.Max(s.AlongIn, s.AlongOut); x > mm {
					mm, zm = x, s.Z
				}
				if x := math.Max(s.RoundIn, s.RoundOut); x > mh {
					mh, zh = x, s.Z
				}
				mi = math.Min(mi, math.Min(s.AlongIn, s.AlongOut))
			}
			cyl, sh := 0, 0
			for i, z := range m.Z {
				if i > ring && math.Abs(z-.0825) < math.Abs(m.Z[max(cyl, ring)]-.0825) {
					cyl = i
				}
				if math.Abs(z-.1575) < math.Abs(m.Z[sh]-.1575) {
					sh = i
				}
			}
			fmt.Printf("h %g n %d: cyl %.5f sh %.5f top %.5f pole %.5f max along %.3f @%.1f hoop %.3f @%.1f min %.3f\n", h, len(m.el), u[3*cyl]*1e3, u[3*sh]*1e3, u[len(u)-2]*1e3, u[1]*1e3, mm/1e6, zm*1e3, mh/1e6, zh*1e3, mi/1e6)
		}
		show(l.Stresses(m), l.U)
		l = must(mo.Linear(Load{Force: 200}))
		show(l.Stresses(m), l.U)
		mo.Reset()
		if err := mo.Nonlinear(Load{Pressure: 4e5}, 1); err != nil {
			t.Fatal(err)
		}
		show(mo.Stresses(), mo.u)
		m, _, _ = referenceBottle(h, false, p)
		mo = must(NewModel(m, Case{Face: Inner, Supports: []Support{{Node: 0, Axial: HoldR | HoldZ}, {Node: len(m.R) - 1, Axial: HoldR, Harmonic: HoldR | HoldRound}}}))
		c := must(mo.Buckling(Eigen{Varying: Load{Force: 1000}}))
		for _, q := range c {
			fmt.Printf("  n %d %.2f at %.1f", q.Harmonic, q.Load*1000, q.Place*1e3)
		}
		c = must(mo.Buckling(Eigen{Fixed: Load{Pressure: 5e4}, Varying: Load{Force: 1000}}))
		fmt.Println("\n with 0.5 bar", Lowest(c).Harmonic, Lowest(c).Load*1000)
	}
}

func bench500() (*Mesh, int) {
	m, ring, _ := referenceBottle(.5e-3*.97, true, Isotropic(3e9, .38))
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
