package blow

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/integrate/quad"

	"costrel/num/banded"
	"costrel/physics/resin"
)

// wall is the shell: nodes 0 (ledge) to n (gate), elements between, layers
// from inside out. Element and layer arrays are flat, element by element.
type wall struct {
	n, layers int
	law       resin.HotLaw
	rho       float64

	// places of the layers through the wall, 0 inside to 1 outside, and their
	// share of it: Gauss-Legendre points, the inner share below the point
	at, share, below []float64

	// reference
	z0, r0, wall0 []float64 // nodes
	l0, rm0, nr0  []float64 // length, mid radius, radial share of the normal
	thick0        []float64
	vol           []float64 // of a layer of an element [m³]
	rk0           []float64 // radius of a layer
	bk            []float64 // 2 R zeta + n zeta²
	logR          []float64
	inner         float64 // volume between inner face and mid-line, constant
	mass          []float64

	// state
	z, r, zn, rn, vz, vr []float64
	state, next          []resin.HotState
	step                 []resin.HotStep
	sig                  []float64         // stress 1 and 2 of each point [Pa]
	T, X, theta          []float64         // temperature, strain-induced crystallinity, sum of quiescent rate
	rate, ratio          []float64         // of the last step
	rateWas              []float64         // rate of the step before
	path                 []float64         // greatest nominal rate of an element, summed over time: how far it was stretched
	out                  resin.HotResponse // of the last point asked
	clamps               resin.Clamp
	lockLow              []float64 // least slackness of an element

	// contact, a node
	kind     []uint8
	dist     []float64 // lower bound of the distance to the mould
	touched  []float64 // time of contact; -1 none
	nz, nr   []float64 // outward normal of the wall
	half     []float64 // half the wall for contact
	tz, tr   []float64 // tangent of a sliding node
	press    []float64 // normal force of a sliding node in the last step
	pressNow []float64
	onRod    []bool

	// system
	mat  *banded.Blocks2
	res  []float64 // residual, then the step a
	grad []float64 // dV/dx
	vec  []float64 // the step b
}

// Kinds of node.
const (
	nodeFree  = iota
	nodeFixed // ledge or stuck on the mould
	nodeAxis  // gate: r = 0
	nodeSlide // on the mould, free along the tangent
)

func newWall(c *Case) *wall {
	z, r, h := c.Preform.mesh(c.Numbers.Elements)
	return wallOf(z, r, h, c.Numbers.Layers, c.Law, c.Numbers.Density)
}

// wallOf makes the shell of given nodes and their wall.
func wallOf(z, r, h []float64, L int, law resin.HotLaw, rho float64) *wall {
	n := len(z) - 1
	w := &wall{n: n, layers: L, law: law, rho: rho, at: make([]float64, L), share: make([]float64, L), below: make([]float64, L)}
	quad.Legendre{}.FixedLocations(w.at, w.share, 0, 1)
	if L > 1 && w.at[0] > w.at[L-1] {
		slices.Reverse(w.at)
		slices.Reverse(w.share)
	}
	edge := 0.0
	for k, x := range w.at {
		w.below[k] = (x - edge) / w.share[k]
		edge += w.share[k]
	}
	w.z0, w.r0, w.wall0 = z, r, h
	nodes := func() []float64 { return make([]float64, n+1) }
	elems := func() []float64 { return make([]float64, n) }
	points := func() []float64 { return make([]float64, n*L) }
	w.l0, w.rm0, w.nr0, w.thick0, w.path, w.lockLow = elems(), elems(), elems(), elems(), elems(), elems()
	w.vol, w.rk0, w.bk, w.logR = points(), points(), points(), points()
	w.mass = nodes()
	w.z, w.r = append([]float64(nil), w.z0...), append([]float64(nil), w.r0...)
	w.zn, w.rn, w.vz, w.vr = nodes(), nodes(), nodes(), nodes()
	w.state, w.next, w.step = make([]resin.HotState, n*L), make([]resin.HotState, n*L), make([]resin.HotStep, n*L)
	w.sig = make([]float64, 2*n*L)
	w.T, w.X, w.theta, w.rate, w.ratio, w.rateWas = points(), points(), points(), points(), points(), points()
	w.kind, w.dist, w.touched = make([]uint8, n+1), nodes(), nodes()
	w.nz, w.nr, w.half, w.tz, w.tr, w.press = nodes(), nodes(), nodes(), nodes(), nodes(), nodes()
	w.pressNow = nodes()
	w.onRod = make([]bool, n+1)
	w.mat = banded.NewBlocks2(n + 1)
	w.res, w.grad, w.vec = make([]float64, 2*n+2), make([]float64, 2*n+2), make([]float64, 2*n+2)

	for e := range n {
		dz, dr := w.z0[e+1]-w.z0[e], w.r0[e+1]-w.r0[e]
		l := math.Hypot(dz, dr)
		R, nr, H := (w.r0[e]+w.r0[e+1])/2, dz/l, (w.wall0[e]+w.wall0[e+1])/2
		w.l0[e], w.rm0[e], w.nr0[e], w.thick0[e] = l, R, nr, H
		w.inner += 2 * math.Pi * l * (R*H/2 - nr*H*H/8)
		w.lockLow[e] = 1
		var m float64
		for k := range L {
			x := H * (w.at[k] - 0.5)
			i := e*L + k
			w.vol[i] = 2 * math.Pi * l * H * w.share[k] * (R + nr*x)
			w.rk0[i] = R + nr*x
			w.bk[i] = 2*R*x + nr*x*x
			w.logR[i] = math.Log(w.rk0[i])
			w.state[i] = resin.Rest()
			w.next[i] = w.state[i]
			w.ratio[i] = 1
			m += w.rho * w.vol[i]
		}
		w.mass[e] += m / 2
		w.mass[e+1] += m / 2
	}
	w.kind[0], w.kind[n] = nodeFixed, nodeAxis
	for i := range w.touched {
		w.touched[i] = -1
	}
	return w
}

// volume returns the volume inside the mid-line; less w.inner it is the air.
func (w *wall) volume() float64 {
	var v float64
	for e := range w.n {
		a, b := w.r[e], w.r[e+1]
		v += (a*a + a*b + b*b) * (w.z[e+1] - w.z[e])
	}
	return v * math.Pi / 3
}

// thickness returns the wall of an element now.
func (w *wall) thickness(e int) float64 {
	Q, q, rm := w.shape(e)
	l := math.Sqrt(Q)
	var h float64
	for k := range w.layers {
		i := e*w.layers + k
		h += w.vol[i] / (2 * math.Pi * l * math.Sqrt(max(rm*rm+w.bk[i]*q, 1e-18)))
	}
	return h
}

// shape returns squared length, q = L0 dz/l² and mid radius of an element. The
// radius of a layer is sqrt(rm² + bk q): the volume between mid-line and layer
// is kept on a cone.
func (w *wall) shape(e int) (Q, q, rm float64) {
	dz, dr := w.z[e+1]-w.z[e], w.r[e+1]-w.r[e]
	Q = dz*dz + dr*dr
	return Q, w.l0[e] * dz / Q, (w.r[e] + w.r[e+1]) / 2
}

// faceHoop returns the hoop stretch of an element at the place x through the
// wall, 0 inside to 1 outside.
func (w *wall) faceHoop(e int, x float64) float64 {
	_, q, rm := w.shape(e)
	R, n := w.rm0[e], w.nr0[e]
	z := w.thick0[e] * (x - 0.5)
	return math.Sqrt(math.Max(rm*rm+(2*R*z+n*z*z)*q, 0)) / (R + n*z)
}

// prepare readies the laws of all points for a step of length dt. ahead is how
// far the rate is carried on from the last two steps: the time from the middle
// of the last to that of this one, over that between the last two.
func (w *wall) prepare(dt, ahead float64) {
	for i := range w.step {
		rate := w.rate[i]
		if ahead > 0 {
			rate = min(max(rate+ahead*(rate-w.rateWas[i]), rate/2), 2*rate)
		}
		w.law.Prepare(&w.step[i], &w.state[i], w.T[i], dt, rate, w.ratio[i])
	}
}

// strains puts the strain of a layer from the kinematics.
func (w *wall) strains(e, i int, Q, q, rm float64) (e1, e2 float64, ok bool) {
	s := rm*rm + w.bk[i]*q
	if !(s > 1e-16) || !(Q > 1e-14) {
		return 0, 0, false
	}
	return 0.5*math.Log(Q) - math.Log(w.l0[e]), 0.5*math.Log(s) - w.logR[i], true
}

// update takes the state of every layer to the present geometry at the end of
// a step of length dt. The laws answer at its share theta; the state goes on
// from there, the stress kept is that at theta.
func (w *wall) update(theta, dt float64) bool {
	out := &w.out
	for e := range w.n {
		Q, q, rm := w.shape(e)
		for k := range w.layers {
			i := e*w.layers + k
			e1, e2, ok := w.strains(e, i, Q, q, rm)
			if !ok {
				return false
			}
			st, to := &w.state[i], &w.next[i]
			w.law.Update(&w.step[i], st, theta*(e1-st.Strain[0]), theta*(e2-st.Strain[1]), to, out)
			if theta != 1 {
				to.Reach(st, e1, e2, theta, dt)
			}
			w.sig[2*i], w.sig[2*i+1] = out.Stress[0], out.Stress[1]
			w.lockLow[e] = min(w.lockLow[e], out.Locked)
			w.clamps |= w.step[i].Clamp
		}
	}
	return true
}

// assemble fills matrix and residual with inner forces and their tangent, and
// grad with dV/dx; the second derivative of the volume enters with the gauge
// pressure p. It returns false where the geometry has collapsed.
func (w *wall) assemble(p float64) bool {
	w.mat.Clear()
	clear(w.res)
	clear(w.grad)
	out := &w.out
	L := w.layers
	for e := range w.n {
		a, b := &w.mat.Diag[e], &w.mat.Diag[e+1]
		up, low := &w.mat.Upper[e], &w.mat.Lower[e+1]
		j := 2 * e
		r1, r2 := w.r[e], w.r[e+1]
		dz, dr := w.z[e+1]-w.z[e], r2-r1
		// pressure; order of the unknowns of a node: z, r
		c := math.Pi / 3
		S := r1*r1 + r1*r2 + r2*r2
		w.grad[j] -= c * S
		w.grad[j+2] += c * S
		g1, g2 := c*(2*r1+r2), c*(r1+2*r2)
		w.grad[j+1] += g1 * dz
		w.grad[j+3] += g2 * dz
		pc := p * c
		a[1], a[2] = a[1]+p*g1, a[2]+p*g1 // -p d²V/dz1 dr1, d²V/dz1dr1 = -g1
		a[3] -= 2 * pc * dz
		b[1], b[2] = b[1]-p*g2, b[2]-p*g2
		b[3] -= 2 * pc * dz
		up[1] += p * g2 // z1 r2
		low[2] += p * g2
		up[2] -= p * g1 // r1 z2
		low[1] -= p * g1
		up[3] -= pc * dz
		low[3] -= pc * dz

		if w.kind[e] == nodeFixed && w.kind[e+1] == nodeFixed {
			continue
		}
		Q, q, rm := w.shape(e)
		if !(Q > 1e-14) {
			return false
		}
		l0 := w.l0[e]
		iQ := 1 / Q
		// y = (rm, dr, dz); strain 1 = log l, derivative u, second v
		u1, u2 := dr*iQ, dz*iQ
		v11, v12, v22 := iQ-2*u1*u1, -2*u1*u2, iQ-2*u2*u2
		// q = l0 dz / Q
		q1, q2 := -2*l0*u2*u1, l0*(iQ-2*u2*u2)
		q11 := -2 * l0 * u2 * (iQ - 4*u1*u1)
		q12 := -2 * l0 * u1 * (iQ - 4*u2*u2)
		q22 := l0 * u2 * (8*u2*u2 - 6*iQ)
		e1 := 0.5*math.Log(Q) - math.Log(l0)
		var f0, f1, f2 float64
		var k00, k01, k02, k10, k11, k12, k20, k21, k22 float64
		for k := range L {
			i := e*L + k
			bk := w.bk[i]
			s := rm*rm + bk*q
			if !(s > 1e-16) {
				return false
			}
			e2 := 0.5*math.Log(s) - w.logR[i]
			st := &w.state[i]
			w.law.Update(&w.step[i], st, e1-st.Strain[0], e2-st.Strain[1], &w.next[i], out)
			V := w.vol[i]
			is := 0.5 / s
			t0, t1, t2 := 2*rm*is, bk*q1*is, bk*q2*is // d e2
			s1, s2 := V*out.Stress[0], V*out.Stress[1]
			c11, c12, c21, c22 := V*out.Tangent[0][0], V*out.Tangent[0][1], V*out.Tangent[1][0], V*out.Tangent[1][1]
			f0 += s2 * t0
			f1 += s1*u1 + s2*t1
			f2 += s1*u2 + s2*t2
			k00 += c22*t0*t0 + s2*(2*is-2*t0*t0)
			h := s2 * (-2 * t0)
			m1, m2 := c21*t0, c12*t0
			k01 += m1*u1 + c22*t0*t1 + h*t1
			k02 += m1*u2 + c22*t0*t2 + h*t2
			k10 += m2*u1 + c22*t0*t1 + h*t1
			k20 += m2*u2 + c22*t0*t2 + h*t2
			k11 += c11*u1*u1 + (c12+c21)*u1*t1 + c22*t1*t1 + s1*v11 + s2*(bk*q11*is-2*t1*t1)
			k22 += c11*u2*u2 + (c12+c21)*u2*t2 + c22*t2*t2 + s1*v22 + s2*(bk*q22*is-2*t2*t2)
			x := c11*u1*u2 + c22*t1*t2 + s1*v12 + s2*(bk*q12*is-2*t1*t2)
			k12 += x + c12*u1*t2 + c21*u2*t1
			k21 += x + c12*u2*t1 + c21*u1*t2
		}
		w.res[j] -= f2
		w.res[j+1] += f0/2 - f1
		w.res[j+2] += f2
		w.res[j+3] += f0/2 + f1
		// node 1 and 2, order z, r: rows of J are z: (0, 0, -+1), r: (1/2, -+1, 0)
		a[0] += k22
		a[1] += -k20/2 + k21
		a[2] += -k02/2 + k12
		a[3] += k00/4 - (k01+k10)/2 + k11
		b[0] += k22
		b[1] += k20/2 + k21
		b[2] += k02/2 + k12
		b[3] += k00/4 + (k01+k10)/2 + k11
		up[0] -= k22
		up[1] += -k20/2 - k21
		up[2] += k02/2 - k12
		up[3] += k00/4 + (k01-k10)/2 - k11
		low[0] -= k22
		low[1] += k20/2 - k21
		low[2] += -k02/2 - k12
		low[3] += k00/4 + (k10-k01)/2 - k11
	}
	return true
}
