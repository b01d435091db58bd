package curve

import "math"

// Shell is a stretch of wall between the outer face and the inner face.
type Shell struct {
	Volume   float64 // m³
	VolumeZ  float64 // ∫ z dV [m⁴]
	Area     float64 // of the outer face [m²]
	MeanWall float64 // mean thickness over the outer face [m]
}

// Centroid returns the z of the centroid [m] of the wall; 0 without volume.
func (s Shell) Centroid() float64 { return ratio(s.VolumeZ, s.Volume) }

// Shell returns the wall between arc lengths s0 < s1 of the outer face, cut
// along the normals there.
//
//	dV/ds = 2π [r t - (n_r + r κ1) t²/2 + n_r κ1 t³/3]
//
// (the shell swept by the normals, exact for smooth curves), less the kites
// that both sides of a convex corner sweep, plus those that neither side of a
// concave corner does, each to the mitre of [Meridian.Inner]. Over the whole
// length it is the difference of the volumes of the two faces.
// A wall that Inner refuses gives a value here that means nothing.
func (m *Meridian) Shell(w Wall, s0, s1 float64) (Shell, error) {
	if err := w.Check(); err != nil {
		return Shell{}, err
	}
	s0, s1 = math.Max(s0, 0), math.Min(s1, m.total.Length)
	var q Shell
	var wallArea float64
	tiny := 1e-12 * m.total.Length
	for i := range m.pieces {
		c := &m.pieces[i]
		a, b := math.Max(s0, c.s0), math.Min(s1, c.s0+c.sum.Length)
		if b-a <= tiny {
			continue
		}
		from := a
		for _, to := range append(append([]float64(nil), w.between(a, b)...), b) {
			n := 1
			mid := (from + to) / 2
			tm, slope := w.At(mid)
			t0 := tm - slope*(mid-from)
			if c.form != formLine {
				n = 1 + int(float64(c.chords(0.25))*(to-from)/c.sum.Length)
			}
			for k := range n {
				x0 := from + (to-from)*float64(k)/float64(n)
				x1 := from + (to-from)*float64(k+1)/float64(n)
				ta, tb := t0+slope*(x0-from), t0+slope*(x1-from)
				c.sweep8(x0, x1, ta, tb, &q, &wallArea)
			}
			from = to
		}
		// ends of the piece that lie inside the stretch
		if a == c.s0 {
			v, z, err := m.wedge(w, i, true)
			if err != nil {
				return Shell{}, err
			}
			q.Volume, q.VolumeZ = q.Volume+v, q.VolumeZ+z
		}
		if b == c.s0+c.sum.Length {
			v, z, err := m.wedge(w, i, false)
			if err != nil {
				return Shell{}, err
			}
			q.Volume, q.VolumeZ = q.Volume+v, q.VolumeZ+z
		}
	}
	q.MeanWall = ratio(wallArea, q.Area)
	return q, nil
}

// sweep8 adds one Gauss panel of swept wall, of thickness ta at a and tb at b.
func (c *piece) sweep8(a, b, ta, tb float64, q *Shell, wallArea *float64) {
	line := c.form == formLine
	d := unit(c.d1(0))
	bend := 0.0
	for k, x := range gaussX {
		ds := (b - a) * gaussW[k]
		u := c.uAt(a + (b-a)*x - c.s0)
		p := c.at(u)
		if !line {
			d, bend = unit(c.d1(u)), c.bend(u)
		}
		t := ta + (tb-ta)*x
		da := 2 * math.Pi * p.R * ds
		q.Area += da
		*wallArea += da * t
		// two Gauss points through the wall: exact for the cubic integrand
		for _, g := range throughWall {
			y := g * t
			dv := math.Pi * t * ds * (p.R - y*d.Z) * (1 - bend*y)
			q.Volume += dv
			q.VolumeZ += dv * (p.Z + y*d.R)
		}
	}
}

// throughWall are the nodes of the Gauss rule with 2 points on [0, 1].
var throughWall = [2]float64{0.5 - 0.28867513459481287, 0.5 + 0.28867513459481287} // 1/√12

// wedge returns the volume and its z moment between the normal at one end of
// piece i and the mitre there: positive where the wall is larger than swept.
func (m *Meridian) wedge(w Wall, i int, atStart bool) (v, vz float64, err error) {
	c := &m.pieces[i]
	u, s, sign := 1.0, c.s0+c.sum.Length, 1.0
	if atStart {
		u, s, sign = 0, c.s0, -1
	}
	var k corner
	switch {
	case atStart && i > 0:
		_, k, err = m.mitre(w, i)
	case !atStart && i+1 < len(m.pieces):
		k, _, err = m.mitre(w, i+1)
	default:
		k, err = m.endAt(w, c, u, s)
	}
	if err != nil || k.tau == 0 {
		return 0, 0, err
	}
	t, _ := w.At(s)
	p, d := c.at(u), unit(c.d1(u))
	foot := Point{p.Z + t*d.R, p.R - t*d.Z}
	area := sign * k.tau * t / 2
	v = 2 * math.Pi * area * (p.R + foot.R + k.vertex.R) / 3
	return v, v * (p.Z + foot.Z + k.vertex.Z) / 3, nil
}
