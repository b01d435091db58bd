package blow

import (
	"math"

	"costrel/physics/resin"
)

// Closed solutions and the shell's own answer for the same shape, for checks.

// tubePressure returns the pressure of a tube of inner radius A and outer
// radius B that is blown to the inner radius a at constant length, by the
// virtual work of a uniform widening.
func tubePressure(law resin.HotLaw, A, B, a float64, layers int) float64 {
	const n = 4
	z, r, h := make([]float64, n+1), make([]float64, n+1), make([]float64, n+1)
	R := (A + B) / 2
	for i := range z {
		z[i], r[i], h[i] = float64(i)*B, R, B-A
	}
	w := wallOf(z, r, h, layers, law, 1340)
	now := math.Sqrt(a*a + R*R - A*A) // the volume between inner face and mid-line is kept
	for i := range w.r {
		w.r[i] = now
	}
	return w.stillPressure(func(i int) (float64, float64) { return 0, 1 })
}

// spherePressure returns the pressure of a balloon of mid radius R and wall h
// at the stretch lam, by the virtual work of a uniform growth.
func spherePressure(law resin.HotLaw, R, h, lam float64, n, layers int) float64 {
	z, r, t := make([]float64, n+1), make([]float64, n+1), make([]float64, n+1)
	for i := range z {
		a := math.Pi / 2 * float64(i) / float64(n)
		z[i], r[i], t[i] = R*math.Sin(a), R*math.Cos(a), h
	}
	r[n] = 0
	w := wallOf(z, r, t, layers, law, 1340)
	for i := range w.z {
		w.z[i] *= lam
		w.r[i] *= lam
	}
	return w.stillPressure(func(i int) (float64, float64) { return w.z[i], w.r[i] })
}

// stillPressure is the work of the inner forces on a virtual motion over the
// change of the volume.
func (w *wall) stillPressure(motion func(i int) (dz, dr float64)) float64 {
	for i := range w.T {
		w.T[i] = 373.15
	}
	w.prepare(1, 0)
	if !w.assemble(0) {
		return math.NaN()
	}
	var work, dV float64
	for i := range w.z {
		dz, dr := motion(i)
		work += w.res[2*i]*dz + w.res[2*i+1]*dr
		dV += w.grad[2*i]*dz + w.grad[2*i+1]*dr
	}
	return work / dV
}

// tubeExact is the neo-Hookean thick tube at constant length, p/mu. Source:
// Treloar1975.
func tubeExact(A, B, a float64) float64 {
	C := a*a - A*A
	b := math.Sqrt(B*B + C)
	return math.Log(B/A) - math.Log(b/a) + C/2*(1/(a*a)-1/(b*b))
}
