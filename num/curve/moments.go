package curve

import "math"

// Moments are the integrals of a stretch of meridian.
type Moments struct {
	Length float64 // ∫ ds [m]
	FirstZ float64 // ∫ z ds [m²]
	FirstR float64 // ∫ r ds [m²]
	CrossZ float64 // ∫ z r ds [m³]
	Solid  float64 // ∫ r² dz [m³]; signed: negative where z falls
	SolidZ float64 // ∫ z r² dz [m⁴]
}

// Area returns the area of revolution [m²], 2π∫r ds (Pappus).
func (m Moments) Area() float64 { return 2 * math.Pi * m.FirstR }

// Volume returns the volume of revolution [m³], π∫r² dz. It is the volume
// between the stretch and the axis, bounded by planes through its ends; parts
// where z falls count negative, so a re-entrant base comes out right.
func (m Moments) Volume() float64 { return math.Pi * m.Solid }

// VolumeCentroid returns the z of the centroid of the solid [m]; 0 for an
// empty solid.
func (m Moments) VolumeCentroid() float64 { return ratio(m.SolidZ, m.Solid) }

// AreaCentroid returns the z of the centroid of the surface [m].
func (m Moments) AreaCentroid() float64 { return ratio(m.CrossZ, m.FirstR) }

// MeanRadius returns the mean radius [m], ∫r ds / ∫ds.
func (m Moments) MeanRadius() float64 { return ratio(m.FirstR, m.Length) }

func ratio(a, b float64) float64 {
	if b == 0 {
		return 0
	}
	return a / b
}

// Plus returns the moments of two stretches together.
func (m Moments) Plus(n Moments) Moments {
	return Moments{
		m.Length + n.Length, m.FirstZ + n.FirstZ, m.FirstR + n.FirstR,
		m.CrossZ + n.CrossZ, m.Solid + n.Solid, m.SolidZ + n.SolidZ,
	}
}

// Minus returns the moments of m without the stretch n.
func (m Moments) Minus(n Moments) Moments {
	return Moments{
		m.Length - n.Length, m.FirstZ - n.FirstZ, m.FirstR - n.FirstR,
		m.CrossZ - n.CrossZ, m.Solid - n.Solid, m.SolidZ - n.SolidZ,
	}
}

// panel integrates over [u0, u1] with one Gauss panel.
func (c *piece) panel(u0, u1 float64) Moments {
	var m Moments
	h := u1 - u0
	for k, x := range gaussX {
		u := u0 + h*x
		p, d := c.at(u), c.d1(u)
		w := h * gaussW[k]
		v := w * math.Hypot(d.Z, d.R)
		m.Length += v
		m.FirstZ += v * p.Z
		m.FirstR += v * p.R
		m.CrossZ += v * p.Z * p.R
		s := w * p.R * p.R * d.Z
		m.Solid += s
		m.SolidZ += s * p.Z
	}
	return m
}

// moments integrates over [u0, u1]: one panel for a line, panels of half a
// radian at most for an arc, panels doubled until the length stands still to
// 1e-13 for a cubic.
func (c *piece) moments(u0, u1 float64) Moments {
	if u0 == u1 {
		return Moments{}
	}
	split := func(n int) Moments {
		var m Moments
		for k := range n {
			m = m.Plus(c.panel(u0+(u1-u0)*float64(k)/float64(n), u0+(u1-u0)*float64(k+1)/float64(n)))
		}
		return m
	}
	switch c.form {
	case formLine:
		return c.panel(u0, u1)
	case formArc:
		return split(1 + int(math.Abs(c.sweep*(u1-u0))/0.5))
	}
	prev := c.panel(u0, u1)
	for n := 2; n <= 128; n *= 2 {
		next := split(n)
		d := next.Minus(prev)
		prev = next
		if math.Abs(d.Length) <= 1e-13*math.Abs(next.Length) && math.Abs(d.FirstR) <= 1e-13*math.Abs(next.FirstR) {
			break
		}
	}
	return prev
}

// seal fills in what a finished piece keeps: moments and, for a cubic, the
// table of arc length, of two entries where one Gauss panel is enough.
func (c *piece) seal() {
	if c.form != formCubic {
		c.sum = c.moments(0, 1)
		return
	}
	one := c.panel(0, 1)
	c.knots = 2
	a, b := c.panel(0, 0.5), c.panel(0.5, 1)
	c.sum = a.Plus(b)
	c.table[1], c.table[2] = a.Length, c.sum.Length
	if math.Abs(one.Length-c.sum.Length) <= 1e-13*one.Length {
		return
	}
	c.knots = 8
	c.sum = Moments{}
	for k := range 8 {
		c.sum = c.sum.Plus(c.moments(float64(k)/8, float64(k+1)/8))
		c.table[k+1] = c.sum.Length
	}
}

// uAt returns u at arc length s from the beginning of the piece.
func (c *piece) uAt(s float64) float64 {
	length := c.sum.Length
	if s <= 0 {
		return 0
	}
	if s >= length {
		return 1
	}
	if c.form != formCubic {
		return s / length
	}
	k := 0
	for k < c.knots-1 && c.table[k+1] <= s {
		k++
	}
	h := 1 / float64(c.knots)
	lo, hi := float64(k)*h, float64(k+1)*h
	u := lo + h*(s-c.table[k])/(c.table[k+1]-c.table[k])
	for range 20 {
		f := c.table[k] + c.panel(lo, u).Length - s
		d := c.d1(u)
		step := f / math.Hypot(d.Z, d.R)
		u = math.Min(hi, math.Max(lo, u-step))
		if math.Abs(step) < 1e-14 {
			break
		}
	}
	return u
}
