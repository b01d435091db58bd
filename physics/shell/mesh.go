package shell

import (
	"fmt"
	"math"
)

// Mesh is the mid-surface of a shell of revolution as a row of cones, from the
// lower end to the upper. Node i and i+1 bound element i.
type Mesh struct {
	R, Z, T []float64 // radius, height and wall of each node [m]
	NR, NZ  []float64 // outward unit normal of each node
	S       []float64 // arc length of each node [m]
	el      []element
}

// element is a cone between two nodes, in its unloaded form.
type element struct {
	r, l   float64 // mid radius, length [m]
	tr, tz float64 // unit tangent; the normal is (tz, -tr)
	t      float64 // wall [m]
	layer  Layers
	// Elastic section at factor 1: membrane, coupling, bending per unit
	// width; shear and twist.
	a, b, d sym2
	g, gd   float64 // ∫G dζ, ∫G ζ² dζ
	// Shear along the meridian that is as soft as the element is against bending
	// over its length, 1/gs = 1/(5/6 g) + l²/12 d: the two nodes then stand as on a
	// cubic. share is what of it is bending, slack 6/5 share².
	gs, share, slack float64
	turn             float64 // by how much the true meridian turns from the lower node to the upper [rad]
	rm               float64 // mean radius of the true meridian [m]
	law              [Points]pointLaw
}

// pointLaw is what a ply is to the update of a point: compliance, stiffness,
// Hill's matrix and the yield it goes with, and axes V with VᵀSV = 1 and
// VᵀPV = diag(λ).
type pointLaw struct {
	S, C, P sym2
	Y       float64
	lambda  [2]float64
	v, w    [2]float64 // columns of V
}

// Elements returns the number of elements.
func (m *Mesh) Elements() int { return len(m.el) }

// NewMesh returns the mesh with the given mid-surface nodes, wall and layers
// at each node. Most callers want [Build].
func NewMesh(r, z, t []float64, ply []Layers) (*Mesh, error) {
	n := len(r)
	if n < 2 || len(z) != n || len(t) != n || len(ply) != n {
		return nil, fmt.Errorf("shell: mesh: %d radii, %d heights, %d walls, %d layers", n, len(z), len(t), len(ply))
	}
	v := make([]float64, 6*n)
	next := func() []float64 { x := v[:n:n]; v = v[n:]; return x }
	m := &Mesh{R: next(), Z: next(), T: next(), NR: next(), NZ: next(), S: next(), el: make([]element, n-1)}
	copy(m.R, r)
	copy(m.Z, z)
	copy(m.T, t)
	for i := range m.el {
		e := &m.el[i]
		dr, dz := r[i+1]-r[i], z[i+1]-z[i]
		e.l = math.Hypot(dr, dz)
		e.r = 0.5 * (r[i] + r[i+1])
		if !(t[i] > 0) || !(t[i+1] > 0) {
			return nil, fmt.Errorf("shell: mesh: wall ‹%g and %g m› at z ‹%.3f mm›, must be above 0", t[i], t[i+1], z[i]*1e3)
		}
		if !(e.l > 1e-9) || !(e.r > 0) || math.IsInf(e.l, 0) {
			return nil, fmt.Errorf("shell: mesh: element %d at z ‹%.3f mm› has length %g and radius ‹%g m›", i+1, z[i]*1e3, e.l, e.r)
		}
		e.tr, e.tz = dr/e.l, dz/e.l
		e.t = 0.5 * (t[i] + t[i+1])
		e.rm = e.r
		e.layer = mixLayers(&ply[i], &ply[i+1], 0.5)
		e.section()
		m.S[i+1] = m.S[i] + e.l
	}
	for i := range n {
		var nr, nz float64
		for _, k := range [2]int{i - 1, i} {
			if k >= 0 && k < len(m.el) {
				nr += m.el[k].tz
				nz -= m.el[k].tr
			}
		}
		if r[i] <= 1e-9 { // pole
			nr = 0
		}
		l := math.Hypot(nr, nz)
		if !(l > 1e-6) {
			return nil, fmt.Errorf("shell: mesh: the profile turns back at z ‹%.3f mm›, r ‹%.3f mm›", z[i]*1e3, r[i]*1e3)
		}
		m.NR[i], m.NZ[i] = nr/l, nz/l
	}
	return m, nil
}

func (p *Ply) law() pointLaw {
	P, Y := p.hill()
	S := p.compliance()
	l := pointLaw{S: S, C: S.inverse(), P: P, Y: Y}
	// S = L Lᵀ; A = L⁻¹ P L⁻ᵀ by one rotation.
	a := math.Sqrt(S.s)
	b := S.c / a
	c := math.Sqrt(S.h - b*b)
	A := sym2{P.s / S.s, 0, 0}
	A.c = (P.c/a - A.s*b) / c
	A.h = (P.h - 2*b*P.c/a + b*b*A.s) / (c * c)
	x, y := 0.5*(A.s-A.h), A.c
	h := math.Hypot(x, y)
	cos, sin := 1.0, 0.0
	if h > 1e-12*(math.Abs(A.s)+math.Abs(A.h)) {
		// Of half the angle of (|x|, y).
		cos = math.Sqrt(0.5 * (1 + math.Abs(x)/h))
		sin = 0.5 * y / (h * cos)
		if x < 0 {
			sin = -sin
			h = -h
		}
	}
	mean := 0.5 * (A.s + A.h)
	l.lambda = [2]float64{mean + h, mean - h}
	l.v = [2]float64{cos/a - sin*b/(a*c), sin / c}
	l.w = [2]float64{-sin/a - cos*b/(a*c), cos / c}
	return l
}

// along returns a strain in the axes of the law, back a stress from them.
func (l *pointLaw) along(e [2]float64) [2]float64 {
	return [2]float64{l.v[0]*e[0] + l.v[1]*e[1], l.w[0]*e[0] + l.w[1]*e[1]}
}

func (l *pointLaw) back(y [2]float64) [2]float64 {
	return [2]float64{l.v[0]*y[0] + l.w[0]*y[1], l.v[1]*y[0] + l.w[1]*y[1]}
}

func (e *element) section() {
	e.a, e.b, e.d, e.g, e.gd = sym2{}, sym2{}, sym2{}, 0, 0
	h := e.t / 2
	for k := range e.layer {
		p := &e.layer[k]
		e.law[k] = p.law()
		C := e.law[k].C
		w, z := weight[k]*e.t, zeta[k]*h
		e.a.add(w, C)
		e.b.add(w*z, C)
		e.d.add(w*z*z, C)
		e.g += w * p.shear()
		e.gd += w * z * z * p.shear()
	}
	e.gs = 1 / (1/(5.0/6*e.g) + e.l*e.l/(12*e.d.s))
	e.share = 1 - e.gs/(5.0/6*e.g)
	e.slack = 1.2 * e.share * e.share
}

func (m *sym2) add(w float64, o sym2) {
	m.s += w * o.s
	m.c += w * o.c
	m.h += w * o.h
}

// Sizing rules the length of elements.
type Sizing struct {
	Middle bool    // the stations are those of the mid-surface, not of the outer face
	Factor float64 // length over √(r t); 0 for 0.35
	Near   float64 // divisor within √(r t) of a junction; 0 for 4
	Most   int     // largest number of elements; 0 for 4000

	// A node is put where the bottle stands: at the radius stand below the height
	// edge, or of the lower half without one, or at the lowest place.
	pin         bool
	stand, edge float64
}

// Build makes the mesh from the stations of a profile.
//
// Between corners the profile is a smooth curve through the stations (Akima's
// slopes, by chord length); wall and layers are joined by straight lines. A
// corner is a turn of more than 35 degrees at one station, or of more than 2.3
// where the profile is straight to one side of it; a node stands on each, where
// the middles of both walls meet. Elements are 0.35 √(r t) long and turn by at
// most an eighth, a quarter of that within √(r t) of a junction: an end or a corner
// (of 15 degrees, less the less it turns); half of that at a jump of curvature by more
// than half of 1/r, or of wall by more than a quarter.
func Build(st []Station, q Sizing) (*Mesh, error) {
	if err := checkStations(st); err != nil {
		return nil, err
	}
	if q.Factor == 0 {
		q.Factor = 0.35
	}
	if q.Near == 0 {
		q.Near = 4
	}
	if q.Most == 0 {
		q.Most = 4000
	}
	if !(q.Factor >= 0.01 && q.Factor <= 3) || !(q.Near >= 1 && q.Near <= 8) {
		return nil, fmt.Errorf("shell: mesh: factor %g (0.01..3), divisor %g (1..8)", q.Factor, q.Near)
	}
	c := newCurve(st)
	places, err := c.places(q)
	if err != nil {
		return nil, err
	}
	n := len(places)
	r, z, t := make([]float64, 0, n), make([]float64, 0, n), make([]float64, 0, n)
	ply := make([]Layers, 0, n)
	kept := make([]float64, 0, n)
	for i, s := range places {
		f := c.at(s)
		off := 0.5 * f.wall * f.miter
		if q.Middle {
			off = 0
		}
		ri, zi := f.r-off*f.nr, f.z-off*f.nz
		if (i == 0 || i == n-1) && f.r < 1e-7 {
			ri, zi = 0, f.z-off*math.Copysign(1, f.nz)
		}
		if ri < 0 {
			return nil, fmt.Errorf("shell: mesh: the middle of the wall at z ‹%.3f mm› lies beyond the axis (wall ‹%.3f mm›)", f.z*1e3, f.wall*1e3)
		}
		fixed := i == n-1 || f.miter > 1
		folds, near, least := false, c.nearCorner(s, f.wall), 0.0
		if near {
			least = 0.2
		}
		for k := len(kept) - 1; k >= 0; k-- {
			// The offset of a tight fillet folds back, and so does that of a place
			// nearer to a corner than the middle of the wall comes: such are left out.
			g := c.at(0.5 * (s + kept[k]))
			if (ri-r[k])*(-g.nz)+(zi-z[k])*g.nr > least*(s-kept[k]) {
				break
			}
			if folds = near && !fixed; folds {
				break
			}
			if k == 0 || !near || c.at(kept[k]).miter > 1 {
				return nil, fmt.Errorf("shell: mesh: the middle of the wall crosses itself at z ‹%.3f mm›, r ‹%.3f mm›: the fillet is tighter than the wall ‹%.3f mm›", f.z*1e3, f.r*1e3, f.wall*1e3)
			}
			r, z, t, ply, kept = r[:k], z[:k], t[:k], ply[:k], kept[:k]
		}
		if !folds {
			r, z, t, ply, kept = append(r, ri), append(z, zi), append(t, f.wall), append(ply, f.ply), append(kept, s)
		}
	}
	places = kept
	if i, j, crossed := crossing(r, z); crossed {
		return nil, fmt.Errorf("shell: mesh: the profile crosses itself: z ‹%.2f mm›, r ‹%.2f mm› against z ‹%.2f mm›, r ‹%.2f mm›", z[i]*1e3, r[i]*1e3, z[j]*1e3, r[j]*1e3)
	}
	m, err := NewMesh(r, z, t, ply)
	if err != nil {
		return nil, err
	}
	for i := range m.el {
		e := &m.el[i]
		e.turn = c.turn(places[i], places[i+1])
		e.rm = e.r + e.tz*e.turn*e.l/12
	}
	return m, nil
}

// crossing finds two segments of the line that cut each other.
func crossing(r, z []float64) (int, int, bool) {
	side := func(i int, x, y float64) float64 {
		return (r[i+1]-r[i])*(y-z[i]) - (z[i+1]-z[i])*(x-r[i])
	}
	for i := 0; i+1 < len(r); i++ {
		lo, hi := math.Min(z[i], z[i+1]), math.Max(z[i], z[i+1])
		for j := i + 2; j+1 < len(r); j++ {
			if (z[j] < lo && z[j+1] < lo) || (z[j] > hi && z[j+1] > hi) {
				continue
			}
			if side(i, r[j], z[j])*side(i, r[j+1], z[j+1]) < 0 && side(j, r[i], z[i])*side(j, r[i+1], z[i+1]) < 0 {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}
