package shell

import (
	"fmt"
	"math"
	"testing"
)

func must[T any](x T, err error) T {
	if err != nil {
		panic(err)
	}
	return x
}

func TestProbe(t *testing.T) {
	p := Isotropic(3e9, .38)
	for _, h := range []float64{4e-3, 2e-3, 1e-3, .5e-3, .25e-3} {
		m := must(capsule(.0325, .05, .3e-3, h, p))
		mo := must(NewModel(m, Case{Face: Inner, Supports: []Support{{Node: 0, Axial: HoldZ | HoldTurn}}}))
		l := must(mo.Linear(Load{Pressure: 4e5}))
		st := l.Stresses(m)
		mm := 0.0
		for _, s := range st {
			mm = math.Max(mm, s.AlongOut)
		}
		fmt.Printf("h %g ur %.5f uz %.5f hoop %.4f %.4f along %.4f max %.4f\n", h, l.U[0]*1e3, l.U[len(l.U)-2]*1e3, st[0].RoundIn/1e6, st[0].RoundOut/1e6, st[0].AlongMid/1e6, mm/1e6)
		err := mo.Nonlinear(Load{Pressure: 4e5}, 1)
		st = mo.Stresses()
		fmt.Println(err, mo.u[0]*1e3, st[0].RoundMid/1e6)
	}
	// sphere
	b := must(ball(.0325, .3e-3, 200, p))
	mo := must(NewModel(b, Case{Face: Mid, Supports: []Support{{Node: 100, Axial: HoldZ}}}))
	c, err := mo.Buckling(Eigen{Varying: Load{Pressure: -1e5}, Waves: []int{0, 2, 3}})
	fmt.Println(err)
	for _, q := range c {
		fmt.Println("sphere", q.Harmonic, q.Load/10)
	}
	// axial SS3
	for _, n := range []int{100, 200, 400} {
		tb := must(tube(.0325, .1, .3e-3, n, p))
		mo = must(NewModel(tb, Case{Face: Mid, Supports: []Support{{Node: 0, Axial: HoldR | HoldZ, Harmonic: HoldR | HoldRound}, {Node: n, Axial: HoldR, Harmonic: HoldR | HoldRound}}}))
		c, err = mo.Buckling(Eigen{Varying: Load{Force: 1000}, Waves: []int{2, 3, 4, 5, 6, 7, 8, 9, 10}})
		fmt.Println(err, n, Lowest(c).Harmonic, Lowest(c).Load*1000)
		for _, d := range []bool{true, false} {
			c, err = mo.Buckling(Eigen{Varying: Load{Pressure: -1e3}, Waves: []int{3, 4, 5, 6}, Dead: d})
			fmt.Println(err, n, "hydro", d, Lowest(c).Harmonic, Lowest(c).Load)
		}
		mo2 := must(NewModel(tb, Case{Face: Mid, Open: true, Supports: []Support{{Node: 0, Axial: HoldR | HoldZ, Harmonic: HoldR | HoldRound}, {Node: n, Axial: HoldR, Harmonic: HoldR | HoldRound}}}))
		for _, d := range []bool{true, false} {
			c, err = mo2.Buckling(Eigen{Varying: Load{Pressure: -1e3}, Waves: []int{3, 4, 5, 6}, Dead: d})
			fmt.Println(err, n, "lateral", d, Lowest(c).Harmonic, Lowest(c).Load)
		}
		mo3 := must(NewModel(tb, Case{Face: Mid, Supports: []Support{{Node: 0, Axial: HoldR | HoldZ, Harmonic: HoldR | HoldRound | HoldZ}, {Node: n, Axial: HoldR, Harmonic: HoldR | HoldRound}}}))
		c, err = mo3.Buckling(Eigen{Varying: Load{Force: 1000}})
		fmt.Println(err, n, "plate", Lowest(c).Harmonic, Lowest(c).Load*1000)
		c, err = mo3.Buckling(Eigen{Varying: Load{Pressure: -1e3}, Dead: true})
		fmt.Println(err, n, "plate hydro", Lowest(c).Harmonic, Lowest(c).Load)
	}
	// ring
	tb := must(tube(.0325, .001, .3e-3, 2, p))
	all := HoldZ | HoldTurn
	mo = must(NewModel(tb, Case{Face: Mid, Open: true, Supports: []Support{{0, all, all}, {1, all, all}, {2, all, all}}}))
	for _, d := range []bool{true, false} {
		c, err = mo.Buckling(Eigen{Varying: Load{Pressure: -1e3}, Waves: []int{2, 3}, Dead: d})
		fmt.Println(err, "ring", d, c[0].Load, c[1].Load)
	}
}
