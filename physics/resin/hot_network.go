package resin

import "math"

// lockLeast is the slackness 1 - alpha² I1 below which the network stress is
// continued along a line: the law itself goes to infinity there, and a trial
// step must stay finite.
const lockLeast = 0.02

// netAnswer is the network stress after a step.
type netAnswer struct {
	s    [3]float64    // deviatoric network stress [Pa]
	ds   [3][2]float64 // derivative by the in-plane increments of strain [Pa]
	lock float64       // 1 - alpha² I1
}

// netStress returns the deviatoric Edwards-Vilgis stress over Ns k T at the
// network strains e1, e2, -(e1+e2), its derivative by e1 and e2, and the
// slackness 1 - alpha² I1.
//
//	t_i = E (u_i/((1+eta u_i)² Z) + a² u_i Xi/Z²) + eta u_i/(1+eta u_i) - a² u_i/Z
//	u_i = lambda_i²,  E = (1+eta)(1-a²),  Z = 1 - a² sum u,  Xi = sum u/(1+eta u)
//
// Source: EdwardsVilgis1986.
func (l *GlassRubber) netStress(e1, e2 float64) (s [3]float64, d [3][2]float64, lock float64) {
	eta, a2 := l.Eta, l.Alpha*l.Alpha
	E := (1 + eta) * (1 - a2)
	u := [3]float64{math.Exp(2 * e1), math.Exp(2 * e2), 0}
	u[2] = 1 / (u[0] * u[1])
	Z := 1 - a2*(u[0]+u[1]+u[2])
	iz, w := 1/Z, 0.0
	if Z < lockLeast {
		iz = 1/lockLeast + (lockLeast-Z)/(lockLeast*lockLeast)
		w = 1 / (lockLeast * lockLeast)
	} else {
		w = iz * iz
	}
	var Xi float64
	var A, dA, B, dB, dXi, diz [3]float64
	for i, v := range u {
		g := 1 / (1 + eta*v)
		Xi += v * g
		A[i] = v * g * g
		dA[i] = 2 * v * (1 - eta*v) * g * g * g
		B[i] = eta * v * g
		dB[i] = 2 * eta * v * g * g
		dXi[i] = 2 * v * g * g
		diz[i] = 2 * a2 * v * w
	}
	var t [3]float64
	var D [3][3]float64 // dt_i / dln lambda_j
	iz2 := iz * iz
	for i, v := range u {
		t[i] = E*(A[i]*iz+a2*v*Xi*iz2) + B[i] - a2*v*iz
		p, q := E*A[i]-a2*v, E*a2*v
		for j := range u {
			D[i][j] = p*diz[j] + q*(dXi[j]*iz2+2*Xi*iz*diz[j])
		}
		D[i][i] += E*(dA[i]*iz+2*a2*v*Xi*iz2) + dB[i] - 2*a2*v*iz
	}
	mean := (t[0] + t[1] + t[2]) / 3
	for i := range s {
		s[i] = t[i] - mean
	}
	for j := range 2 {
		c0, c1, c2 := D[0][j]-D[0][2], D[1][j]-D[1][2], D[2][j]-D[2][2]
		m := (c0 + c1 + c2) / 3
		d[0][j], d[1][j], d[2][j] = c0-m, c1-m, c2-m
	}
	return s, d, Z
}

// netEnergy returns the Edwards-Vilgis free energy over Ns k T, zero at rest.
func (l *GlassRubber) netEnergy(e1, e2 float64) float64 {
	eta, a2 := l.Eta, l.Alpha*l.Alpha
	E := (1 + eta) * (1 - a2)
	w := func(u [3]float64) float64 {
		Z := max(1-a2*(u[0]+u[1]+u[2]), 1e-6)
		sum := math.Log(Z)
		for _, v := range u {
			sum += E*v/((1+eta*v)*Z) + math.Log1p(eta*v)
		}
		return sum / 2
	}
	u := [3]float64{math.Exp(2 * e1), math.Exp(2 * e2), math.Exp(-2 * (e1 + e2))}
	return w(u) - w([3]float64{1, 1, 1})
}

// slipStep solves e = e_n + d - c s(e) for the network strain by Newton, where
// c is the slip of the step, and returns stress and derivative.
func (l *GlassRubber) slipStep(step *HotStep, from *HotState, d1, d2 float64, to *HotState, net *netAnswer) {
	nkT := step.c[cNkT]
	t1, t2 := from.Net[0]+d1, from.Net[1]+d2
	c := step.c[cSlip] * nkT
	if c == 0 {
		s, d, lock := l.netStress(t1, t2)
		to.Net[0], to.Net[1], net.lock = t1, t2, lock
		for i := range s {
			net.s[i] = nkT * s[i]
			net.ds[i] = [2]float64{nkT * d[i][0], nkT * d[i][1]}
		}
		return
	}
	// The first-order estimate of the relaxed strain is close enough for two
	// or three iterations.
	e1, e2 := from.Net[0]+d1, from.Net[1]+d2
	var s [3]float64
	var d [3][2]float64
	var lock float64
	var a, b, p, q, det float64
	for range 30 {
		s, d, lock = l.netStress(e1, e2)
		r1, r2 := e1-t1+c*s[0], e2-t2+c*s[1]
		a, b = 1+c*d[0][0], c*d[0][1]
		p, q = c*d[1][0], 1+c*d[1][1]
		det = a*q - b*p
		x, y := (q*r1-b*r2)/det, (a*r2-p*r1)/det
		e1, e2 = e1-x, e2-y
		if math.Abs(x)+math.Abs(y) < 2e-6 {
			// quadratic: the next error is far below the last step
			for i := range s {
				s[i] -= d[i][0]*x + d[i][1]*y
			}
			break
		}
	}
	to.Net[0], to.Net[1], net.lock = e1, e2, lock
	// de/dd is the inverse of the Jacobian.
	j := [2][2]float64{{q / det, -b / det}, {-p / det, a / det}}
	for i := range s {
		net.s[i] = nkT * s[i]
		net.ds[i][0] = nkT * (d[i][0]*j[0][0] + d[i][1]*j[1][0])
		net.ds[i][1] = nkT * (d[i][0]*j[0][1] + d[i][1]*j[1][1])
	}
}
