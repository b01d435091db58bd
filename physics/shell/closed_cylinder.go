package shell

import (
	"fmt"
	"math"

	"costrel/num/sym"
)

// CylinderLoad names the load of [CylinderBuckling].
type CylinderLoad int

// The loads of a simply supported cylinder.
const (
	AxialForce  CylinderLoad = iota // result in N
	Hydrostatic                     // outside, ends loaded; result in Pa
	Lateral                         // outside, ends not loaded; result in Pa
)

// CylinderBuckling returns the lowest load of a thin cylinder between ends that
// stay round and may move along the axis and warp, with the numbers of half
// waves along and waves round.
//
//	u = U cos αx cos nθ   v = V sin αx sin nθ   w = W sin αx cos nθ,  α = mπ/l
//
// Strains after Sanders, prestress on the full gradients of displacement,
// pressure dead or following the wall. An eigenproblem of three unknowns for
// each (m, n); m to 60 and n = 1..40 are searched. Derived for this project.
func CylinderBuckling(load CylinderLoad, r, t, l, E, nu float64, dead bool) (lowest float64, m, n int, err error) {
	if err := positive("cylinder buckling", "r, t, l, E", r, t, l, E); err != nil {
		return 0, 0, 0, err
	}
	if !(nu >= 0 && nu < 0.5) {
		return 0, 0, 0, fmt.Errorf("shell: cylinder buckling: ν %g outside 0..0.5", nu)
	}
	K, G := sym.NewBand(3, 2), sym.NewBand(3, 2)
	pen := sym.NewPencil(3, 2)
	C, D := E*t/(1-nu*nu), E*t*t*t/(12*(1-nu*nu))
	g := (1 - nu) / 2
	var nx, nh, p float64 // per unit load
	switch load {
	case AxialForce:
		nx = -1 / (2 * math.Pi * r)
	case Hydrostatic:
		nx, nh, p = -r/2, -r, -1
	case Lateral:
		nh, p = -r, -1
	default:
		return 0, 0, 0, fmt.Errorf("shell: cylinder buckling: no load %d", load)
	}
	if dead {
		p = 0
	}
	lowest = math.Inf(1)
	for i := 1; i <= 60; i++ {
		a := float64(i) * math.Pi / l
		for j := 1; j <= 40; j++ {
			q := float64(j)
			ex, eh, ga := [3]float64{-a, 0, 0}, [3]float64{0, q / r, 1 / r}, [3]float64{-q / r, a, 0}
			kx, kh := [3]float64{0, 0, a * a}, [3]float64{0, q / (r * r), q * q / (r * r)}
			tw := [3]float64{0.5 * q / (r * r), 1.5 * a / r, 2 * a * q / r}
			round := [2][3]float64{{0, q, 1}, {0, 1, q}}
			K.Zero()
			G.Zero()
			for x := range 3 {
				for y := 0; y <= x; y++ {
					K.Add(x, y, C*(ex[x]*ex[y]+eh[x]*eh[y]+nu*(ex[x]*eh[y]+eh[x]*ex[y])+g*ga[x]*ga[y])+
						D*(kx[x]*kx[y]+kh[x]*kh[y]+nu*(kx[x]*kh[y]+kh[x]*kx[y])+g*tw[x]*tw[y]))
					v := nh / (r * r) * (round[0][x]*round[0][y] + round[1][x]*round[1][y])
					if x == y {
						v += nx * a * a
						if x == 0 {
							v += nh * q * q / (r * r)
						}
					}
					G.Add(x, y, v)
				}
			}
			// -p/r (W² + 2n W V + V² - 2 r α U W)
			G.Add(2, 2, -p/r)
			G.Add(1, 1, -p/r)
			G.Add(2, 1, -p/r*q)
			G.Add(2, 0, p*a)
			if !math.IsInf(lowest, 1) {
				if c, err := pen.Count(K, G, lowest); err != nil || c == 0 {
					continue
				}
			}
			hint := lowest
			if math.IsInf(hint, 1) {
				hint = E * t
			}
			x, err := pen.Find(K, G, sym.Critical{Hint: hint, Below: 1e9 * hint, Tol: 1e-10}, nil)
			if err == nil && x < lowest {
				lowest, m, n = x, i, j
			}
		}
	}
	if math.IsInf(lowest, 1) {
		return 0, 0, 0, fmt.Errorf("shell: cylinder buckling: %w", sym.ErrNoLoad)
	}
	return lowest, m, n, nil
}
