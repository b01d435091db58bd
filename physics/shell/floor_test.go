package shell

import (
	"math"
	"testing"
)

// A sphere pressed on a plane gives way as under a point load while the patch
// is small, P = 4 E t² δ/(R √(3 (1-ν²))): Reissner 1946, from memory. Later the
// patch widens, and the plane pushes on a ring round a dimple, never on its
// middle (Updike and Kalnins 1970, from memory).
func TestSphereOnPlane(t *testing.T) {
	const n, E, nu = 400, 3e9, 0.38
	var R, Z []float64
	for i := range n + 1 {
		x := float64(i) / n
		s, c := math.Sincos(math.Pi / 2 * x * (0.2 + 0.8*x)) // finer at the pole
		R, Z = append(R, refR*s), append(Z, refR*(1-c))
	}
	m := must(NewModel(must(alike(R, Z, refWall, Ply{Es: E, Eh: E, Nu: nu})), Case{Supports: []Support{{Node: 0, Axial: HoldZ}, {Node: n, Axial: HoldTurn}}}))
	m.onFloor(0)
	m.floor.stiff *= 100
	last := 0.0
	for _, d := range []float64{0.003, 0.02, 0.2, 0.4, 0.6} {
		if err := m.solve(step{control: givenStroke, target: d * 1e-3}); err != nil {
			t.Fatal(d, err)
		}
		sum, pole := 0.0, 0
		m.touching(func(i int) {
			f, _ := m.push(i)
			if sum += f; f < 0 {
				t.Errorf("at %g mm the plane pulls at node %d", d, i)
			}
			if i == 0 {
				pole++
			}
		})
		if math.Abs(sum/m.load-1) > 1e-6 || m.load < last {
			t.Errorf("at %g mm the plane gives %g N under %g N", d, sum, m.load)
		}
		last = m.load
		point := 4 * E * refWall * refWall * d * 1e-3 / (refR * math.Sqrt(3*(1-nu*nu)))
		// Shear, which Reissner leaves out, gives way by P ln(√(Rt)/l)/(2π κ G t) more,
		// 6 % here.
		if r := m.load / point; d < 0.01 && (r < 0.91 || r > 0.97) {
			t.Errorf("at %g mm %g N, point load %g N", d, m.load, point)
		}
		if (d < 0.03) != (pole == 1) && d != 0.2 {
			t.Errorf("at %g mm, wall 0.3 mm, the pole touches %d times", d, pole)
		}
	}
}

// The heel of a light bottle with a narrow standing ring comes down on the
// plate: the load is far above that of a bottle held at the ring alone, and the
// same on elements half as long.
func TestHeelComesDown(t *testing.T) {
	b := demo(0.16e-3)
	b.Quick, b.Sizing.Factor = true, 0.7
	for i := range b.Stations {
		if s := &b.Stations[i]; s.Z < 9.5e-3 {
			s.Wall, s.Ply = 0.11e-3, b.Stations[60].Ply
		}
	}
	load := func(b Bottle) float64 {
		r, err := TopLoad(TopLoadInput{Bottle: b, Fill: EmptyVented, Steps: 32, Brief: true})
		if err != nil {
			t.Fatal(err)
		}
		return r.Perfect
	}
	held, free := b, b
	held.Stand = 24.5e-3
	free.Sizing.Factor = 0.35
	at, ring, fine := load(b), load(held), load(free)
	if math.Abs(at/fine-1) > 0.03 || at < 1.3*ring {
		t.Errorf("%g N, finer %g N, on the ring alone %g N", at, fine, ring)
	}
}
