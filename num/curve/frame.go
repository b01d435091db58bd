package curve

import (
	"fmt"
	"math"
)

// Frame is the meridian at one arc length.
type Frame struct {
	S      float64 // arc length from the beginning [m]
	Z, R   float64 // m
	TZ, TR float64 // unit tangent in the direction of travel
	NZ, NR float64 // unit normal, outward
	K1     float64 // meridional curvature [1/m], positive where convex from outside
	K2     float64 // circumferential curvature [1/m], NR/R
}

// At returns the frame at arc length s [m], held inside 0..Length. At a corner
// tangent and normal point along the bisector and K1 is the mean of the two
// sides. On the axis K2 takes its limit K1; that is right for a smooth pole,
// while a pointed one has no curvature there.
func (m *Meridian) At(s float64) Frame {
	s = math.Min(math.Max(s, 0), m.total.Length)
	i := m.find(s)
	c := &m.pieces[i]
	tiny := 1e-12 * m.total.Length
	if i > 0 && s-c.s0 <= tiny {
		return m.joint(i)
	}
	if i+1 < len(m.pieces) && m.pieces[i+1].s0-s <= tiny {
		return m.joint(i + 1)
	}
	u := c.uAt(s - c.s0)
	return frameOf(s, c.at(u), c.d1(u), c.bend(u))
}

// joint returns the frame where piece i begins.
func (m *Meridian) joint(i int) Frame {
	a, b := &m.pieces[i-1], &m.pieces[i]
	da, db := unit(a.d1(1)), unit(b.d1(0))
	d := Point{da.Z + db.Z, da.R + db.R}
	if math.Hypot(d.Z, d.R) < 1e-9 {
		d = db
	}
	return frameOf(b.s0, b.p0, d, (a.bend(1)+b.bend(0))/2)
}

func frameOf(s float64, p, d Point, bend float64) Frame {
	t := unit(d)
	f := Frame{S: s, Z: p.Z, R: p.R, TZ: t.Z, TR: t.R, NZ: -t.R, NR: t.Z, K1: bend}
	if p.R <= 1e-12 {
		f.K2 = f.K1
	} else {
		f.K2 = f.NR / f.R
	}
	return f
}

func unit(d Point) Point {
	v := math.Hypot(d.Z, d.R)
	return Point{d.Z / v, d.R / v}
}

// Stations returns n arc lengths from 0 to Length [m], rising strictly. Ends of
// the pieces (the rows of the table) are among them when n is at least twice
// the number of pieces, with the rest spread evenly between; otherwise they
// are evenly spaced.
func (m *Meridian) Stations(n int) ([]float64, error) {
	if n < 2 {
		return nil, fmt.Errorf("curve: %d stations: ask for at least 2", n)
	}
	out := make([]float64, 0, n)
	total := m.total.Length
	np := len(m.pieces)
	if n < 2*np {
		for i := range n {
			out = append(out, total*float64(i)/float64(n-1))
		}
		return out, nil
	}
	// each piece gets one interval; the rest goes where the spacing is widest
	count := make([]int, np)
	left := n - 1
	for i := range m.pieces {
		count[i] = max(1, int(float64(n-1-np)*m.pieces[i].sum.Length/total))
		left -= count[i]
	}
	for ; left > 0; left-- {
		widest, at := 0.0, 0
		for i := range m.pieces {
			if h := m.pieces[i].sum.Length / float64(count[i]); h > widest {
				widest, at = h, i
			}
		}
		count[at]++
	}
	for i := range m.pieces {
		c := &m.pieces[i]
		for k := range count[i] {
			out = append(out, c.s0+c.sum.Length*float64(k)/float64(count[i]))
		}
	}
	return append(out, total), nil
}

// Sample returns points along the meridian for drawing: both ends of every
// piece, and between them points no further apart than step [m] along the
// curve nor more than 3 degrees of turn.
func (m *Meridian) Sample(step float64) ([]Point, error) {
	if !(step > 0) || !finite(step) {
		return nil, fmt.Errorf("curve: sample step %v m: want a positive length", step)
	}
	if m.total.Length/step > 1e6 {
		return nil, fmt.Errorf("curve: sample step %s on %s of curve gives more than a million points", mm(step), mm(m.total.Length))
	}
	out := []Point{m.First()}
	for i := range m.pieces {
		c := &m.pieces[i]
		n := max(c.chords(math.Pi/60), int(math.Ceil(c.sum.Length/step)))
		for k := 1; k <= n; k++ {
			out = append(out, c.at(float64(k)/float64(n)))
		}
	}
	return out, nil
}

// chords returns how many equal steps in u keep the turn of each below angle.
func (c *piece) chords(angle float64) int {
	switch c.form {
	case formArc:
		return int(math.Ceil(math.Abs(c.sweep) / angle))
	case formCubic:
		turn, prev := 0.0, unit(c.d1(0))
		most := 0.0
		for k := 1; k <= 16; k++ {
			d := unit(c.d1(float64(k) / 16))
			step := math.Abs(math.Atan2(prev.Z*d.R-prev.R*d.Z, prev.Z*d.Z+prev.R*d.R))
			turn += step
			most = math.Max(most, step)
			prev = d
		}
		return max(2, int(math.Ceil(math.Max(turn, 8*most)/angle)))
	}
	return 1
}
