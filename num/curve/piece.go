package curve

import "math"

// form is the geometry of a piece.
type form uint8

const (
	formLine form = iota
	formArc
	formCubic
)

// piece is one smooth part of a meridian, u from 0 to 1. z does not turn
// inside a piece: pieces are split where it does.
type piece struct {
	form   form
	row    int // index of the row it arrives at
	p0, p1 Point
	// arc: centre, radius > 0, angle at u = 0 and signed sweep
	centre       Point
	rad          float64
	angle, sweep float64
	// cubic: coefficients of powers of u
	cz, cr [4]float64
	// arc length of a cubic at u = k/knots, k = 0..knots
	table  [9]float64
	knots  int
	sum    Moments // of the piece
	before Moments // of the meridian up to the piece
	s0     float64 // arc length at its beginning
}

// lineOf returns the straight piece from p to q.
func lineOf(p, q Point, row int) piece { return piece{form: formLine, row: row, p0: p, p1: q} }

// arcOf returns the minor arc from p to q; a positive radius turns right.
func arcOf(p, q Point, radius float64, row int) piece {
	dz, dr := q.Z-p.Z, q.R-p.R
	chord := math.Hypot(dz, dr)
	rad := math.Max(math.Abs(radius), chord/2)
	h := math.Sqrt(math.Max(0, rad*rad-chord*chord/4))
	side := 1.0 // centre on the right
	if radius < 0 {
		side = -1
	}
	c := Point{(p.Z+q.Z)/2 + side*h*dr/chord, (p.R+q.R)/2 - side*h*dz/chord}
	return piece{
		form: formArc, row: row, p0: p, p1: q, centre: c, rad: rad,
		angle: math.Atan2(p.R-c.R, p.Z-c.Z),
		sweep: -side * 2 * math.Asin(math.Min(1, chord/(2*rad))),
	}
}

// cubicOf returns the Hermite cubic from p to q with end derivatives a and b
// with respect to u.
func cubicOf(p, q, a, b Point, row int) piece {
	co := func(y0, y1, d0, d1 float64) [4]float64 {
		return [4]float64{y0, d0, 3*(y1-y0) - 2*d0 - d1, 2*(y0-y1) + d0 + d1}
	}
	return piece{form: formCubic, row: row, p0: p, p1: q, cz: co(p.Z, q.Z, a.Z, b.Z), cr: co(p.R, q.R, a.R, b.R)}
}

// at returns the point at u.
func (c *piece) at(u float64) Point {
	switch {
	case u == 0:
		return c.p0
	case u == 1:
		return c.p1
	}
	switch c.form {
	case formLine:
		return Point{c.p0.Z + u*(c.p1.Z-c.p0.Z), c.p0.R + u*(c.p1.R-c.p0.R)}
	case formArc:
		sin, cos := math.Sincos(c.angle + u*c.sweep)
		return Point{c.centre.Z + c.rad*cos, c.centre.R + c.rad*sin}
	}
	return Point{horner(c.cz, u), horner(c.cr, u)}
}

// d1 returns the derivative with respect to u.
func (c *piece) d1(u float64) Point {
	switch c.form {
	case formLine:
		return Point{c.p1.Z - c.p0.Z, c.p1.R - c.p0.R}
	case formArc:
		sin, cos := math.Sincos(c.angle + u*c.sweep)
		k := c.rad * c.sweep
		return Point{-k * sin, k * cos}
	}
	return Point{c.cz[1] + u*(2*c.cz[2]+u*3*c.cz[3]), c.cr[1] + u*(2*c.cr[2]+u*3*c.cr[3])}
}

// bend returns the meridional curvature at u, positive where convex seen from
// outside.
func (c *piece) bend(u float64) float64 {
	switch c.form {
	case formLine:
		return 0
	case formArc:
		if c.sweep < 0 {
			return 1 / c.rad
		}
		return -1 / c.rad
	}
	d := c.d1(u)
	z2, r2 := 2*c.cz[2]+6*u*c.cz[3], 2*c.cr[2]+6*u*c.cr[3]
	v := math.Hypot(d.Z, d.R)
	return (d.R*z2 - d.Z*r2) / (v * v * v)
}

// part returns the piece between u0 and u1.
func (c *piece) part(u0, u1 float64) piece {
	p, q := c.at(u0), c.at(u1)
	switch c.form {
	case formLine:
		return lineOf(p, q, c.row)
	case formArc:
		d := *c
		d.p0, d.p1, d.angle, d.sweep = p, q, c.angle+u0*c.sweep, (u1-u0)*c.sweep
		return d
	}
	a, b, h := c.d1(u0), c.d1(u1), u1-u0
	return cubicOf(p, q, Point{a.Z * h, a.R * h}, Point{b.Z * h, b.R * h}, c.row)
}

// turns returns the values of u inside (0, 1) where z (or r) stands still.
func (c *piece) turns(inZ bool) []float64 {
	var out []float64
	keep := func(u float64) {
		if u > 1e-9 && u < 1-1e-9 {
			out = append(out, u)
		}
	}
	switch c.form {
	case formArc:
		// dz/du = 0 at angles k pi, dr/du = 0 at pi/2 + k pi
		shift := 0.0
		if !inZ {
			shift = math.Pi / 2
		}
		lo, hi := c.angle, c.angle+c.sweep
		if lo > hi {
			lo, hi = hi, lo
		}
		for k := math.Ceil((lo - shift) / math.Pi); shift+k*math.Pi <= hi; k++ {
			keep((shift + k*math.Pi - c.angle) / c.sweep)
		}
	case formCubic:
		co := c.cr
		if inZ {
			co = c.cz
		}
		for _, u := range quadratic(3*co[3], 2*co[2], co[1]) {
			keep(u)
		}
	}
	if len(out) == 2 && out[0] > out[1] {
		out[0], out[1] = out[1], out[0]
	}
	return out
}

// crossing returns u where a piece that does not turn in z meets the plane z.
func (c *piece) crossing(z float64) float64 {
	a, b := c.p0.Z, c.p1.Z
	if a == b {
		return 0
	}
	lo, hi := 0.0, 1.0
	u := (z - a) / (b - a)
	if c.form == formLine {
		return math.Min(1, math.Max(0, u))
	}
	for range 100 {
		u = math.Min(hi, math.Max(lo, u))
		f := c.at(u).Z - z
		if (f > 0) == (b > a) {
			hi = u
		} else {
			lo = u
		}
		if f == 0 || hi-lo < 1e-15 {
			break
		}
		next := u - f/c.d1(u).Z
		if !(next > lo && next < hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-u) < 1e-16 {
			break
		}
		u = next
	}
	return u
}

func horner(c [4]float64, u float64) float64 { return c[0] + u*(c[1]+u*(c[2]+u*c[3])) }

// quadratic returns the real roots of a x² + b x + c.
func quadratic(a, b, c float64) []float64 {
	scale := math.Max(math.Abs(a), math.Max(math.Abs(b), math.Abs(c)))
	if scale == 0 {
		return nil
	}
	if math.Abs(a) < 1e-14*scale {
		if b == 0 {
			return nil
		}
		return []float64{-c / b}
	}
	d := b*b - 4*a*c
	if d < 0 {
		return nil
	}
	q := -(b + math.Copysign(math.Sqrt(d), b)) / 2
	if q == 0 {
		return []float64{0}
	}
	return []float64{q / a, c / q}
}
