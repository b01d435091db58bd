package resin

import "math"

// bondStep takes the bond stress over the step and adds up the answer. Over a
// step of constant strain rate and relaxation time
//
//	s = s_n exp(-dt/tau) + 2 G tau (1 - exp(-dt/tau)) d/dt
//
// and the relaxation time, which depends on the stress at the end of the step,
// solves x = log tau: x - log tau_lin - log(z/sinh z) + Vp sigma_m/(RT) = 0, a
// function that rises with x.
func (l *GlassRubber) bondStep(step *HotStep, from *HotState, d1, d2 float64, to *HotState, net *netAnswer, out *HotResponse) {
	dt, G := step.Dt, l.Shear
	lin, zn, vp := step.c[cLogTau], step.c[cZ], step.c[cVp]
	sn1, sn2 := from.Bond[0], from.Bond[1]
	d3 := -d1 - d2
	sn3 := -sn1 - sn2

	x := to.LogTau // the last iteration's, or the last step's
	if !(x > lin-60 && x < lin+1) {
		x = lin
	}
	lo, hi := lin-60, lin+5
	var s1, s2, s3, g1, g2, g3, slope, A, m, ss float64
	for range 60 {
		tau := math.Exp(x)
		y := dt / tau
		e := 0.0
		if y < 37 { // beyond, it is below the spacing of doubles
			e = math.Exp(-y)
		}
		om := 1 - e
		if y < 1e-3 {
			om = y * (1 - y/2*(1-y/3*(1-y/4)))
		}
		A = 2 * G * tau * om / dt
		s1, s2, s3 = sn1*e+A*d1, sn2*e+A*d2, sn3*e+A*d3
		k := 2 * G * (tau*om - dt*e) / dt // dA/dx
		g1, g2, g3 = sn1*e*y+k*d1, sn2*e*y+k*d2, sn3*e*y+k*d3
		ss = s1*s1 + s2*s2 + s3*s3
		z := zn * math.Sqrt(ss)
		lsz, coth := eyring(z)
		m = coth - 1 // z coth z - 1
		f := x - lin + lsz - vp*(s3+net.s[2])
		slope = 1 - vp*g3
		if ss > 0 {
			slope += m * (s1*g1 + s2*g2 + s3*g3) / ss
		}
		dx := -f / slope
		if slope > 0 && math.Abs(dx) < 1e-4 {
			// carry the stress over the last, quadratic, bit
			s1, s2, s3 = s1+g1*dx, s2+g2*dx, s3+g3*dx
			x += dx
			break
		}
		if f > 0 {
			hi = x
		} else {
			lo = x
		}
		if next := x + dx; slope > 0 && next > lo && next < hi {
			x = next
		} else {
			x = (lo + hi) / 2
		}
	}
	to.LogTau = x
	to.Bond[0], to.Bond[1] = s1, s2

	out.Stress[0] = s1 - s3 + net.s[0] - net.s[2]
	out.Stress[1] = s2 - s3 + net.s[1] - net.s[2]

	// dx/dd_j = -(df/dd_j)/slope, with d_3 = -d_1 - d_2
	var x1, x2 float64
	if ss > 0 {
		x1, x2 = m*A*(s1-s3)/ss, m*A*(s2-s3)/ss
	}
	x1 = -(x1 + vp*(A-net.ds[2][0])) / slope
	x2 = -(x2 + vp*(A-net.ds[2][1])) / slope
	out.Tangent[0][0] = 2*A + (g1-g3)*x1 + net.ds[0][0] - net.ds[2][0]
	out.Tangent[0][1] = A + (g1-g3)*x2 + net.ds[0][1] - net.ds[2][1]
	out.Tangent[1][0] = A + (g2-g3)*x1 + net.ds[1][0] - net.ds[2][0]
	out.Tangent[1][1] = 2*A + (g2-g3)*x2 + net.ds[1][1] - net.ds[2][1]
}

// eyring returns log(sinh z / z) and z coth z for z >= 0.
func eyring(z float64) (logRatio, zcoth float64) {
	switch {
	case z < 1e-2:
		z2 := z * z
		return z2 / 6 * (1 - z2/30), 1 + z2/3*(1-z2/15)
	case z > 18.5:
		return z - math.Log(2*z), z
	}
	e := math.Exp(-2 * z)
	return z + math.Log((1-e)/(2*z)), z * (1 + e) / (1 - e)
}
