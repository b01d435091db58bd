package blow

import (
	"fmt"
	"math"
)

// Preform is the part of a preform below the ledge, by its mid-line from the
// ledge (z = 0) to the gate (r = 0) with the wall at each point.
type Preform struct {
	Z, R []float64 // mid-line: depth below the ledge and radius [m]
	Wall []float64 // normal to the mid-line [m]
}

// Straight returns a preform of a cylinder and a hemispherical cap: inner
// diameter of the body, wall, length of the cylinder and wall at the gate [m].
// In the cap the wall runs from body to gate in proportion to the angle.
func Straight(inner, wall, length, gate float64) Preform {
	rm := (inner + wall) / 2
	p := Preform{Z: []float64{0}, R: []float64{rm}, Wall: []float64{wall}}
	const n = 64
	for i := 0; i <= n; i++ {
		a := math.Pi / 2 * float64(i) / n
		r := rm * math.Cos(a)
		if i == n {
			r = 0
		}
		p.Z = append(p.Z, length+rm*math.Sin(a))
		p.R = append(p.R, r)
		p.Wall = append(p.Wall, wall+(gate-wall)*float64(i)/n)
	}
	return p
}

// FromFaces returns the preform between matching points of its inner and
// outer face, both from ledge to gate, z and r [m].
func FromFaces(innerZ, innerR, outerZ, outerR []float64) (Preform, error) {
	n := len(innerZ)
	if n < 2 || len(innerR) != n || len(outerZ) != n || len(outerR) != n {
		return Preform{}, fmt.Errorf("blow: preform faces: %d, %d, %d, %d points, want as many on each and 2 at least", n, len(innerR), len(outerZ), len(outerR))
	}
	p := Preform{make([]float64, n), make([]float64, n), make([]float64, n)}
	for i := range n {
		p.Z[i], p.R[i] = (innerZ[i]+outerZ[i])/2, (innerR[i]+outerR[i])/2
		p.Wall[i] = math.Hypot(outerZ[i]-innerZ[i], outerR[i]-innerR[i])
	}
	return p, nil
}

func (p Preform) check() error {
	n := len(p.Z)
	if n < 2 || len(p.R) != n || len(p.Wall) != n {
		return fmt.Errorf("blow: preform: %d, %d, %d values of depth, radius, wall: want as many of each and 2 at least", n, len(p.R), len(p.Wall))
	}
	for i := range n {
		where := fmt.Sprintf("blow: preform: point %d (depth ‹%.2f mm›)", i+1, p.Z[i]*1e3)
		switch {
		case !finite(p.Z[i]) || !finite(p.R[i]) || !finite(p.Wall[i]):
			return fmt.Errorf("blow: preform: point %d is not finite", i+1)
		case p.Wall[i] < wallLeast:
			what := "wall"
			if p.R[i] < p.R[0]/2 {
				what = "gate wall"
			}
			return fmt.Errorf("%s: %s ‹%.3g mm› below ‹%g mm›: give the wall of the injected part there", where, what, p.Wall[i]*1e3, wallLeast*1e3)
		case p.Wall[i] > wallMost:
			return fmt.Errorf("%s: wall ‹%.3g mm› above ‹%g mm›", where, p.Wall[i]*1e3, wallMost*1e3)
		case p.R[i] < 0 || p.R[i] > 0.3 || math.Abs(p.Z[i]) > 1:
			return fmt.Errorf("%s: radius ‹%.3g mm› outside ‹0..300 mm› or depth outside ‹1 m›", where, p.R[i]*1e3)
		case i > 0 && math.Hypot(p.Z[i]-p.Z[i-1], p.R[i]-p.R[i-1]) < 1e-7:
			return fmt.Errorf("%s: same place as the point before", where)
		case i < n-1 && p.R[i] <= p.Wall[i]/2*math.Abs(slopeZ(p, i)):
			return fmt.Errorf("%s: wall ‹%.3g mm› fills the bore of mid radius ‹%.3g mm›", where, p.Wall[i]*1e3, p.R[i]*1e3)
		}
	}
	if math.Abs(p.R[n-1]) > 1e-6 {
		return fmt.Errorf("blow: preform: mid-line ends at radius ‹%.3g mm›: want the gate on the axis", p.R[n-1]*1e3)
	}
	if math.Abs(p.Z[0]) > 1e-4 {
		return fmt.Errorf("blow: preform: mid-line begins at depth ‹%.3g mm›: want the ledge at 0", p.Z[0]*1e3)
	}
	return nil
}

// slopeZ is the radial share of the normal at point i.
func slopeZ(p Preform, i int) float64 {
	a, b := max(i-1, 0), min(i+1, len(p.Z)-1)
	dz, dr := p.Z[b]-p.Z[a], p.R[b]-p.R[a]
	return dz / math.Hypot(dz, dr)
}

const wallLeast, wallMost = 0.2e-3, 12e-3

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// mesh returns n+1 nodes from ledge to gate and their wall, equally spaced along
// the mid-line.
func (p Preform) mesh(n int) (z, r, h []float64) {
	l := p.line()
	total := l.arc[len(l.arc)-1]
	z, r, h = make([]float64, n+1), make([]float64, n+1), make([]float64, n+1)
	for i := range n + 1 {
		z[i], r[i], h[i] = l.at(total * float64(i) / float64(n))
	}
	r[n] = 0
	return z, r, h
}

// line is a preform by the distance along its mid-line.
type line struct {
	Preform
	arc []float64
}

func (p Preform) line() line {
	l := line{p, make([]float64, len(p.Z))}
	for i := 1; i < len(l.arc); i++ {
		l.arc[i] = l.arc[i-1] + math.Hypot(p.Z[i]-p.Z[i-1], p.R[i]-p.R[i-1])
	}
	return l
}

// at returns depth, radius and wall at the distance s from the ledge.
func (l *line) at(s float64) (z, r, h float64) {
	i, w := bracket(l.arc, s)
	if i == len(l.arc)-1 {
		return l.Z[i], l.R[i], l.Wall[i]
	}
	return l.Z[i] + w*(l.Z[i+1]-l.Z[i]), l.R[i] + w*(l.R[i+1]-l.R[i]), l.Wall[i] + w*(l.Wall[i+1]-l.Wall[i])
}

// outer returns the place of the outer face at the distance s.
func (l *line) outer(s float64) (z, r float64) {
	i, _ := bracket(l.arc, s)
	i = min(i, len(l.arc)-2)
	dz, dr := l.Z[i+1]-l.Z[i], l.R[i+1]-l.R[i]
	k := 0.5 / math.Hypot(dz, dr)
	z, r, h := l.at(s)
	return z - h*dr*k, r + h*dz*k
}

// outerAt returns the radius of the outer face near the depth z; for the upper
// part of a preform, where the face runs down steadily.
func (l *line) outerAt(z float64) float64 {
	s := z
	for range 20 {
		at, _ := l.outer(s)
		s += z - at
	}
	_, r := l.outer(max(s, 0))
	return r
}

// Length returns the length of the mid-line from ledge to gate [m].
func (p Preform) Length() float64 {
	var l float64
	for i := 1; i < len(p.Z); i++ {
		l += math.Hypot(p.Z[i]-p.Z[i-1], p.R[i]-p.R[i-1])
	}
	return l
}

// HeatFromGate returns the temperature field of an oven that counts from the
// gate: s is the distance along the mid-line from the gate of each slice [m],
// rising; edge the ends of the cells through the wall, 0 inside to 1 outside;
// T[slice][cell] in K. length is that of the mid-line.
func HeatFromGate(length float64, s, edge []float64, T [][]float64) (Heat, error) {
	n := len(s)
	if n == 0 || len(T) != n || len(edge) < 2 {
		return Heat{}, fmt.Errorf("blow: temperature from the gate: %d places, %d rows, %d edges: want a row for each place and 2 edges at least", n, len(T), len(edge))
	}
	h := Heat{S: make([]float64, n), X: make([]float64, len(edge)-1), T: make([][]float64, n)}
	for j := range h.X {
		h.X[j] = (edge[j] + edge[j+1]) / 2
	}
	for i := range n {
		h.S[i], h.T[i] = length-s[n-1-i], T[n-1-i]
	}
	return h, h.check()
}
