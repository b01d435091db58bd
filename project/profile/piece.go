package profile

import "math"

// pt is a point of the drawing [m].
type pt struct{ x, y float64 }

func (p pt) to(q pt) float64 { return math.Hypot(q.x-p.x, q.y-p.y) }

// piece is a line, an arc of at most half a turn, or a chord of a sampled
// curve.
type piece struct {
	a, b   pt
	radius float64 // of an arc, positive when it turns left from a to b; 0 else
	curve  bool    // a chord between two points of a curve
	first  bool    // the first chord of its curve
	line   int     // of the file
	what   string  // entity
	layer  string
}

// back returns the piece travelled the other way.
func (p piece) back() piece {
	p.a, p.b, p.radius = p.b, p.a, -p.radius
	return p
}

// mirrored returns the piece after a reflection of the plane.
func (p piece) mirrored(f func(pt) pt) piece {
	p.a, p.b, p.radius = f(p.a), f(p.b), -p.radius
	return p
}

// centre returns the centre of an arc: left of the chord when it turns left.
func (p piece) centre() pt {
	chord := p.a.to(p.b)
	h := math.Sqrt(math.Max(0, p.radius*p.radius-chord*chord/4))
	if p.radius < 0 {
		h = -h
	}
	nx, ny := -(p.b.y-p.a.y)/chord, (p.b.x-p.a.x)/chord
	return pt{(p.a.x+p.b.x)/2 + h*nx, (p.a.y+p.b.y)/2 + h*ny}
}

// sweep returns the angle of an arc from a to b, with its sign.
func (p piece) sweep() float64 {
	s := 2 * math.Asin(math.Min(1, p.a.to(p.b)/2/math.Abs(p.radius)))
	return math.Copysign(s, p.radius)
}

// at returns the point at the share u of the piece.
func (p piece) at(u float64) pt {
	if p.radius == 0 {
		return pt{p.a.x + u*(p.b.x-p.a.x), p.a.y + u*(p.b.y-p.a.y)}
	}
	c := p.centre()
	t := math.Atan2(p.a.y-c.y, p.a.x-c.x) + u*p.sweep()
	r := math.Abs(p.radius)
	return pt{c.x + r*math.Cos(t), c.y + r*math.Sin(t)}
}

// low returns where the piece is lowest.
func (p piece) low() float64 {
	best := 0.0
	if p.b.y < p.a.y {
		best = 1
	}
	if p.radius == 0 {
		return best
	}
	c := p.centre()
	from, sweep := math.Atan2(p.a.y-c.y, p.a.x-c.x), p.sweep()
	for k := -2.0; k <= 2; k++ {
		if u := (-math.Pi/2 + 2*math.Pi*k - from) / sweep; u > 0 && u < 1 {
			return u
		}
	}
	return best
}

// cut returns the two parts of the piece at the share u.
func (p piece) cut(u float64) (piece, piece) {
	m := p.at(u)
	q := p
	p.b, q.a = m, m
	return p, q
}

// crossing returns the last share at which the piece rises through a height;
// ok is false when it does not.
func (p piece) crossing(y float64) (u float64, ok bool) {
	const n = 64
	for i := n; i > 0; i-- {
		lo, hi := float64(i-1)/n, float64(i)/n
		if p.at(lo).y > y || p.at(hi).y < y {
			continue
		}
		for range 60 {
			if mid := (lo + hi) / 2; p.at(mid).y <= y {
				lo = mid
			} else {
				hi = mid
			}
		}
		return hi, true
	}
	return 0, false
}

// arcs returns an arc about a centre as pieces of at most a third of a turn.
func arcs(c pt, radius, from, sweep float64, as piece) []piece {
	n := int(math.Ceil(math.Abs(sweep) / (2 * math.Pi / 3) * (1 - 1e-12)))
	n = max(n, 1)
	on := func(t float64) pt { return pt{c.x + radius*math.Cos(t), c.y + radius*math.Sin(t)} }
	var out []piece
	for i := range n {
		p := as
		p.a, p.b = on(from+sweep*float64(i)/float64(n)), on(from+sweep*float64(i+1)/float64(n))
		p.radius = math.Copysign(radius, sweep)
		out = append(out, p)
	}
	return out
}

// bulge returns the pieces of a polyline's segment: bulge is the tangent of a
// quarter of its angle, positive to the left.
func bulge(a, b pt, value float64, as piece) []piece {
	chord := a.to(b)
	if value == 0 || chord == 0 {
		as.a, as.b = a, b
		return []piece{as}
	}
	sweep := 4 * math.Atan(value)
	radius := chord / 2 / math.Abs(math.Sin(sweep/2))
	// The centre lies left of the chord for a left turn of less than half a circle.
	h := radius * math.Cos(sweep/2) * math.Copysign(1, value)
	nx, ny := -(b.y-a.y)/chord, (b.x-a.x)/chord
	c := pt{(a.x+b.x)/2 + h*nx, (a.y+b.y)/2 + h*ny}
	out := arcs(c, radius, math.Atan2(a.y-c.y, a.x-c.x), sweep, as)
	out[0].a, out[len(out)-1].b = a, b
	return out
}
