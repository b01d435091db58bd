package shell

import (
	"fmt"
	"math"
	"sort"
)

// curve joins the stations: cubic pieces with Akima's slopes between corners.
type curve struct {
	st      []Station
	s       []float64    // chord length at each station
	to, end [][2]float64 // slopes (dr/ds, dz/ds) at the start and the end of each piece
	corner  []bool
}

// place is a point of the curve.
type place struct {
	r, z, nr, nz, wall float64
	miter              float64 // of the offset at a corner
	ply                Layers
}

func newCurve(st []Station) *curve {
	n := len(st)
	c := &curve{st: st, s: make([]float64, n), to: make([][2]float64, n-1), end: make([][2]float64, n-1), corner: make([]bool, n)}
	d := make([][2]float64, n-1)
	for i := range d {
		dr, dz := st[i+1].R-st[i].R, st[i+1].Z-st[i].Z
		l := math.Hypot(dr, dz)
		c.s[i+1] = c.s[i] + l
		d[i] = [2]float64{dr / l, dz / l}
	}
	c.corner[0], c.corner[n-1] = true, true
	c.corners(d)
	from := 0
	for i := 1; i < n; i++ {
		if c.corner[i] {
			c.slopes(d, from, i)
			from = i
		}
	}
	return c
}

// kink is the turn from which a station that turns alone, or with one
// neighbour, is a corner [rad]: three and more in a row are a curve.
const kink = 0.04

// corners finds the places at which the profile bends at once: by more than 35
// degrees, or by more than kink where it is straight to one side.
func (c *curve) corners(d [][2]float64) {
	n := len(c.s)
	turn := make([]float64, n)
	for i := 1; i < n-1; i++ {
		turn[i] = math.Abs(math.Atan2(d[i-1][0]*d[i][1]-d[i-1][1]*d[i][0], d[i-1][0]*d[i][0]+d[i-1][1]*d[i][1]))
	}
	for i := 1; i < n-1; i++ {
		alike := func(k int) bool { return k > 0 && k < n-1 && turn[k] > 0.4*turn[i] }
		run := 1
		for k := i - 1; alike(k) && run < 3; k-- {
			run++
		}
		for k := i + 1; alike(k) && run < 3; k++ {
			run++
		}
		c.corner[i] = turn[i] > 35*math.Pi/180 || (turn[i] > kink && run < 3)
	}
}

// slopes fills the pieces between two corners.
func (c *curve) slopes(d [][2]float64, from, to int) {
	for k := range 2 {
		get := func(i int) float64 { // slope of piece i, extended beyond the ends
			switch {
			case i < from:
				j := min(from+1, to-1)
				return d[from][k] + float64(from-i)*(d[from][k]-d[j][k])
			case i >= to:
				j := max(to-2, from)
				return d[to-1][k] + float64(i-to+1)*(d[to-1][k]-d[j][k])
			}
			return d[i][k]
		}
		for i := from; i <= to; i++ {
			m1, m2, m3, m4 := get(i-2), get(i-1), get(i), get(i+1)
			w1, w2 := math.Abs(m4-m3), math.Abs(m2-m1)
			t := 0.5 * (m2 + m3)
			if w1+w2 > 1e-9 {
				t = (w1*m2 + w2*m3) / (w1 + w2)
			}
			if i < to {
				c.to[i][k] = t
			}
			if i > from {
				c.end[i-1][k] = t
			}
		}
	}
}

// at returns the point at chord length s.
func (c *curve) at(s float64) place {
	i := sort.SearchFloat64s(c.s, s) - 1
	i = max(0, min(i, len(c.s)-2))
	h := c.s[i+1] - c.s[i]
	x := math.Min(1, math.Max(0, (s-c.s[i])/h))
	a, b := &c.st[i], &c.st[i+1]
	h00, h10 := (1+2*x)*(1-x)*(1-x), x*(1-x)*(1-x)
	h01, h11 := x*x*(3-2*x), x*x*(x-1)
	g0, g1, g2 := 6*x*(x-1), (1-x)*(1-3*x), x*(3*x-2)
	f := func(p, q, m, n float64) (float64, float64) {
		return h00*p + h10*h*m + h01*q + h11*h*n, g0*(p-q)/h + g1*m + g2*n
	}
	r, dr := f(a.R, b.R, c.to[i][0], c.end[i][0])
	z, dz := f(a.Z, b.Z, c.to[i][1], c.end[i][1])
	// At a corner the normal is that of the bisector.
	miter := 1.0
	if x == 1 && c.corner[i+1] && i+2 < len(c.s) {
		dr, dz, miter = bisect(dr, dz, c.to[i+1][0], c.to[i+1][1])
	}
	if x == 0 && c.corner[i] && i > 0 {
		dr, dz, miter = bisect(c.end[i-1][0], c.end[i-1][1], dr, dz)
	}
	l := math.Hypot(dr, dz)
	if l == 0 {
		l = 1
	}
	return place{miter: miter, r: r, z: z, nr: dz / l, nz: -dr / l, wall: a.Wall + x*(b.Wall-a.Wall), ply: mixLayers(&a.Ply, &b.Ply, x)}
}

// nearCorner tells whether a place is nearer to a corner than a distance.
func (c *curve) nearCorner(s, within float64) bool {
	for i := 1; i < len(c.s)-1; i++ {
		if c.corner[i] && math.Abs(c.s[i]-s) < within {
			return true
		}
	}
	return false
}

// curvature returns that of the meridian at a place [1/m], by the turn of its piece.
func (c *curve) curvature(s float64) float64 {
	i := sort.SearchFloat64s(c.s, s) - 1
	i = max(0, min(i, len(c.s)-2))
	a, b := c.to[i], c.end[i]
	return math.Abs(math.Atan2(a[0]*b[1]-a[1]*b[0], a[0]*b[0]+a[1]*b[1])) / (c.s[i+1] - c.s[i])
}

// turn returns by how much the curve turns between two places [rad], without
// the corners at its ends.
func (c *curve) turn(a, b float64) float64 {
	d := 1e-6 * (b - a)
	p, q := c.at(a+d), c.at(b-d)
	return math.Atan2(p.nr*q.nz-p.nz*q.nr, p.nr*q.nr+p.nz*q.nz)
}

// bisect returns the direction halfway between two, and by how much the offset
// of a wall is longer there, at most 1.5.
func bisect(ar, az, br, bz float64) (r, z, miter float64) {
	la, lb := math.Hypot(ar, az), math.Hypot(br, bz)
	r, z = ar/la+br/lb, az/la+bz/lb
	return r, z, math.Min(1.5, 2/math.Max(1e-9, math.Hypot(r, z)))
}

// junction is a place where bending arises: its chord length, and the share of the
// refinement that it takes, all of it at a corner of 15 degrees and more.
type junction struct{ s, share float64 }

func (c *curve) junctions() []junction {
	n := len(c.s)
	out := []junction{{0, 1}}
	turn := func(i int) float64 { // curvature at station i
		if i < 1 || i > n-2 {
			return 0
		}
		a := math.Atan2(c.st[i].Z-c.st[i-1].Z, c.st[i].R-c.st[i-1].R)
		b := math.Atan2(c.st[i+1].Z-c.st[i].Z, c.st[i+1].R-c.st[i].R)
		d := math.Remainder(b-a, 2*math.Pi)
		return d / (0.5 * (c.s[i+1] - c.s[i-1]))
	}
	for i := 1; i < n-1; i++ {
		r := math.Max(c.st[i].R, 1e-3)
		jump := math.Abs(turn(i)-turn(i-1)) > 0.5/r && i > 1
		if i < n-2 {
			jump = jump || math.Abs(turn(i+1)-turn(i)) > 0.5/r
		}
		w := c.st[i].Wall
		thick := math.Abs(c.st[i+1].Wall-w) > 0.25*w || math.Abs(c.st[i-1].Wall-w) > 0.25*w
		switch {
		case c.corner[i]:
			a, b := c.end[i-1], c.to[i]
			bend := math.Abs(math.Atan2(a[0]*b[1]-a[1]*b[0], a[0]*b[0]+a[1]*b[1]))
			out = append(out, junction{c.s[i], math.Min(1, math.Max(0.4, bend*12/math.Pi))})
		case jump || thick:
			out = append(out, junction{c.s[i], 0.5})
		}
	}
	return append(out, junction{c.s[n-1], 1})
}

// heel is the height up to which the wall outside the standing ring may come
// down on the plane [m]: it gets shorter elements, which do so one by one.
const heel = 2e-3

// places returns the chord lengths of the nodes.
func (c *curve) places(q Sizing) ([]float64, error) {
	n := len(c.s)
	biggest := 0.0
	for _, st := range c.st {
		biggest = math.Max(biggest, st.R)
	}
	jn := c.junctions()
	foot, ring := math.Inf(1), math.Inf(1)
	switch {
	case q.pin && q.stand == 0:
		foot = c.stands(0, 0)
	case q.pin:
		ring = c.stands(q.stand, q.edge)
	}
	size := func(s float64) float64 {
		f := c.at(s)
		d := math.Sqrt(math.Max(f.r, 0.3*biggest) * f.wall)
		h := q.Factor * d
		if k := c.curvature(s); k > 0 {
			h = math.Min(h, 0.36*q.Factor/k)
		}
		share := 0.0
		if math.Abs(s-ring) < 2*d { // held on a line, the wall bends there
			share = 1
		}
		k := sort.Search(len(jn), func(i int) bool { return jn[i].s >= s })
		for i := k; i < len(jn) && jn[i].s-s < d; i++ {
			share = math.Max(share, jn[i].share)
		}
		for i := k - 1; i >= 0 && s-jn[i].s < d; i-- {
			share = math.Max(share, jn[i].share)
		}
		h /= 1 + (q.Near-1)*share
		if s > foot && s < foot+10*d && f.z < c.at(foot).z+heel {
			h = math.Max(h/(1.5*q.Near), math.Min(h, 0.5*f.wall))
		}
		return h
	}
	// Nodes at the corners and where the bottle stands; between them the local
	// size decides.
	var stops, out []float64
	for i := 1; i < n; i++ {
		if c.corner[i] {
			stops = append(stops, c.s[i])
		}
	}
	if q.pin && len(stops) > 0 {
		s := c.stands(q.stand, q.edge)
		k := min(sort.SearchFloat64s(stops, s), len(stops)-1)
		far := s > 0.2*size(s) && stops[k]-s > 0.2*size(s)
		if far && (k == 0 || s-stops[k-1] > 0.2*size(s)) {
			stops = append(stops[:k], append([]float64{s}, stops[k:]...)...)
		}
	}
	from := 0.0
	for _, to := range stops {
		// Count elements by integrating 1/size, then place at equal shares.
		steps := max(8, int(4*(to-from)/size(0.5*(from+to))))
		steps = min(steps, 4*q.Most)
		cum := make([]float64, steps+1)
		for k := range steps {
			x := from + (to-from)*(float64(k)+0.5)/float64(steps)
			cum[k+1] = cum[k] + (to-from)/float64(steps)/size(x)
		}
		m := max(1, int(math.Ceil(cum[steps])))
		if len(out)+m > q.Most {
			return nil, fmt.Errorf("shell: mesh: more than %d elements: the wall is too thin for the profile or the sizes too small", q.Most)
		}
		j := 0
		for k := range m {
			want := cum[steps] * float64(k) / float64(m)
			for j < steps-1 && cum[j+1] < want {
				j++
			}
			x := (want - cum[j]) / (cum[j+1] - cum[j])
			out = append(out, from+(to-from)*(float64(j)+x)/float64(steps))
		}
		from = to
	}
	return append(out, c.s[n-1]), nil
}

// stands returns the chord length of the first place of the lower half, from the
// gate, that is as wide as the given radius, else of the nearest to it, not above
// the edge if that is given; for radius 0 of the lowest place.
func (c *curve) stands(radius, edge float64) float64 {
	end := c.s[len(c.s)-1]
	if radius > 0 {
		end /= 2
	}
	of := func(p place) float64 {
		if radius > 0 {
			return math.Abs(p.r - radius)
		}
		return p.z
	}
	f := func(s float64) float64 { return of(c.at(s)) }
	const n = 2000
	best, at := math.Inf(1), 0.0
	for i := range n + 1 {
		s := end * float64(i) / n
		p := c.at(s)
		if radius > 0 && edge > 0 && p.z > edge {
			break
		}
		if v := of(p); v < best {
			best, at = v, s
		}
		if radius > 0 && p.r >= radius {
			break
		}
	}
	lo, hi := math.Max(0, at-end/n), math.Min(end, at+end/n)
	for range 60 {
		a, b := lo+(hi-lo)/3, hi-(hi-lo)/3
		if f(a) <= f(b) {
			hi = b
		} else {
			lo = a
		}
	}
	return 0.5 * (lo + hi)
}
