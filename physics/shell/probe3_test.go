package shell

import (
	"fmt"
	"math"
	"testing"
)

func TestProbe3(t *testing.T) {
	// instability burst: K=100 MPa, n=.1, thin tube closed, eps_z=0
	K, n := 100e6, .1
	E0 := .001
	Y := K * math.Pow(E0, n)
	p := Isotropic(200e9, .3)
	p.Ys, p.Yh = Y, Y
	m := must(tube(.0325, .01, .1e-3, 4, p))
	all := HoldTurn
	mo := must(NewModel(m, Case{Face: Mid, Hard: Swift{E0, n}, Supports: []Support{{0, all | HoldZ, 0}, {4, all, 0}}}))
	top := 0.0
	v := mo.Volume0()
	for i := 1; i < 200; i++ {
		if err := mo.solve(step{control: givenVolume, target: v * (1 + .002*float64(i))}); err != nil {
			fmt.Println(i, err)
			break
		}
		if mo.p > top {
			top = mo.p
		} else {
			break
		}
	}
	want := 2 / math.Sqrt(3) * K * math.Pow(n/math.Sqrt(3), n) * math.Exp(-n) * .1 / 32.5
	fmt.Println("burst", top, want, top/want-1, mo.u[0]/.0325, mo.Stresses()[0].Plastic)
	// steady creep
	p = Isotropic(3e9, .38)
	m = must(tube(.0325, .01, .1e-3, 4, p))
	A, q := 1e-30, 3.0
	mo = must(NewModel(m, Case{Face: Mid, Creep: BaileyNorton{A, q, 0}, Supports: []Support{{0, all | HoldZ, 0}, {4, all, 0}}}))
	fmt.Println(mo.solve(step{pressure: 1e5}))
	u0 := mo.u[0]
	for range 3 {
		fmt.Println(mo.solve(step{pressure: 1e5, dt: 10}))
	}
	rate := (mo.u[0] - u0) / .0325 / 30
	fmt.Println("creep", rate, A*math.Pow(math.Sqrt(3)/2, q+1)*math.Pow(1e5*325, q))
	mo.Reset()
	// findley bottle
	c := DefaultFindley()
	mo = must(NewModel(m, Case{Face: Mid, Creep: c, Supports: []Support{{0, all | HoldZ, 0}, {4, all, 0}}}))
	P := 45e6 / 325.
	mo.solve(step{pressure: P})
	u0 = mo.u[0]
	fmt.Println(mo.solve(step{pressure: P, dt: 3600}), (mo.u[0]-u0)/.0325)
	fmt.Println(mo.solve(step{pressure: P, dt: 23 * 3600}), (mo.u[0]-u0)/.0325, .0015*math.Pow(24, .18))
	mo = must(NewModel(m, Case{Face: Mid, Creep: KelvinChain{{.5, 100}}, Supports: []Support{{0, all | HoldZ, 0}, {4, all, 0}}}))
	mo.solve(step{pressure: P})
	u0 = mo.u[0]
	for range 100 {
		mo.solve(step{pressure: P, dt: 1})
	}
	fmt.Println("kelvin", mo.u[0]/u0, 1+.5*(1-math.Exp(-1)))
	// LE7
	p = Isotropic(210e9, .3)
	m = must(capsule(1, 1, .025, .005, p))
	mo = must(NewModel(m, Case{Face: Mid, Supports: []Support{{0, all | HoldZ, 0}}}))
	l := must(mo.Linear(Load{Pressure: 1e6}))
	mm, mh := 0.0, 0.0
	for _, s := range l.Stresses(m) {
		mm = math.Max(mm, s.AlongOut)
		mh = math.Max(mh, s.RoundOut)
	}
	fmt.Println("LE7", mm/1e6, mh/40e6)
	// tangent check by differences on the reference bottle with plasticity
	for _, pl := range []bool{false, true} {
		p = Ply{Es: 3e9, Eh: 4e9, Nu: .38, Ys: 20e6, Yh: 30e6}
		m, ring, _ := referenceBottle(4e-3, true, p)
		mo = must(NewModel(m, Case{Face: Inner, Elastic: !pl, Hard: DefaultLinear(), Supports: []Support{{Node: ring, Axial: HoldZ}}}))
		fmt.Println(mo.Nonlinear(Load{Pressure: 4e5}, 4))
		mo.K.Zero()
		f := func() []float64 {
			r, g := make([]float64, len(mo.u)), make([]float64, len(mo.u))
			mo.volume(g, nil, 0)
			mo.eval(r, nil)
			for i := range r {
				r[i] += 4.2e5 * g[i]
			}
			return r
		}
		r := make([]float64, len(mo.u))
		for i := range mo.u {
			mo.u[i] *= 1.05
		}
		mo.volume(r, mo.K, 4.2e5)
		mo.eval(r, mo.K)
		worst := 0.0
		for j := range mo.u {
			d := 1e-8
			if j%3 == 2 {
				d = 1e-6
			}
			u := mo.u[j]
			mo.u[j] = u + d
			a := f()
			mo.u[j] = u - d
			b := f()
			mo.u[j] = u
			for i := max(0, j-5); i < min(len(mo.u), j+6); i++ {
				num := -(a[i] - b[i]) / (2 * d)
				sc := math.Sqrt(mo.K.At(i, i) * mo.K.At(j, j))
				worst = math.Max(worst, math.Abs(num-mo.K.At(i, j))/sc)
			}
		}
		fmt.Println("tangent", worst)
	}
}
