package oven

import "math"

// facet is a ring of the outer face of the preform.
type facet struct {
	r, z   float64 // radius and height below the ledge [m]
	nr, nz float64 // outward normal, nz downwards
}

// view is the irradiance of a ring over the radiant power of one lamp [1/m²]:
// what falls on it and what of that enters.
type view struct{ falls, enters float64 }

// Gauss-Legendre rule with 8 points on [-1, 1], the positive half; from
// memory, checked in view_test.go.
var (
	gaussX = [4]float64{0.1834346424956498, 0.5255324099163290, 0.7966664774136267, 0.9602898564975363}
	gaussW = [4]float64{0.3626837833783620, 0.3137066458778873, 0.2223810344533745, 0.1012285362903763}
)

// gauss returns node and weight k = 0..7 on a..b.
func gauss(k int, a, b float64) (x, w float64) {
	g := gaussX[k/2]
	if k%2 == 1 {
		g = -g
	}
	return (a+b)/2 + (b-a)/2*g, (b - a) / 2 * gaussW[k/2]
}

// view integrates a lamp at the height z [m] below the ledge over its filament,
// over the travel of the preform along it and over the spin.
//
//	E/P = mean over spin of  ∫ g(u) sin(a) cos(b)/(pi² r²) du
//
// a is the angle between ray and filament, b between ray and normal, r the
// distance; the filament is a thin Lambertian cylinder (sin(a)/pi² a steradian
// and length). Preform and filament point both run over the length L, so
// their distance u along the chain has the density g(u) = (L - |u|)/L² on
// -L..L. The rear reflector is a mirror image at twice its distance, the lower
// one at the height floor [m] below the ledge an image of both below it, each
// weighed with its reflectance. Neighbours do not shade. n is the refractive index for the Fresnel loss.
// Source: SiegelHowell2002.
func (l *Lamps) view(f facet, z, floor, n float64) view {
	var v view
	v.source(l.Length, f, z, l.Distance, n, 1)
	rear := l.Distance + 2*l.Mirror
	v.source(l.Length, f, z, rear, n, l.Reflectance)
	if below := 2*floor - z; below > f.z {
		v.source(l.Length, f, below, l.Distance, n, l.FloorShare)
		v.source(l.Length, f, below, rear, n, l.FloorShare*l.Reflectance)
	}
	return v
}

// source adds a filament of the length L at the height z and the distance d
// from the axis with the weight share.
func (v *view) source(L float64, f facet, z, d, n, share float64) {
	if share <= 0 {
		return
	}
	end := math.Atan(L / d)
	dz := z - f.z
	for panel := range 2 {
		lo, hi := end*float64(panel)/2, end*float64(panel+1)/2
		for i := range 8 {
			psi, w := gauss(i, lo, hi)
			c := math.Cos(psi)
			u := d * math.Tan(psi)
			w *= share * 2 * d / (c * c) * (L - u) / (L * L) // both sides of the middle
			v.add(f, d, u, dz, n, w)
		}
	}
}

// add adds the mean over the spin of one point of the filament at the distance
// d and u in the plane and dz below, with the weight w.
func (v *view) add(f facet, d, u, dz, n, w float64) {
	D := math.Hypot(d, u)
	at := math.Atan2(u, d)
	// the point sees the ring where nr (D cos(phi) - r) + nz dz > 0
	up := f.nr*f.r - f.nz*dz
	var reach float64
	switch {
	case up >= f.nr*D:
		return
	case up <= -f.nr*D:
		reach = math.Pi
	default:
		reach = math.Acos(up / (f.nr * D))
	}
	for k := range 8 {
		phi, wp := gauss(k, -reach, reach)
		s, c := math.Sincos(at + phi)
		x, y := d-f.r*c, u-f.r*s
		r2 := x*x + y*y + dz*dz
		r := math.Sqrt(r2)
		cb := (f.nr*(x*c+y*s) + f.nz*dz) / r
		if cb <= 0 {
			continue
		}
		e := w * wp / (2 * math.Pi) * math.Sqrt(x*x+dz*dz) / r * cb / (math.Pi * math.Pi * r2)
		v.falls += e
		v.enters += e * (1 - fresnel(cb, n))
	}
}

// fresnel returns the reflectance for unpolarised light that falls with the
// cosine c on a face of refractive index n. Source: SiegelHowell2002.
func fresnel(c, n float64) float64 {
	t := math.Sqrt(1 - (1-c*c)/(n*n))
	s := (c - n*t) / (c + n*t)
	p := (n*c - t) / (n*c + t)
	return (s*s + p*p) / 2
}
