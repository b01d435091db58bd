package curve

import (
	"fmt"
	"math"
)

// sharpest is the largest turn of a corner that a wall can follow.
const sharpest = 150 * math.Pi / 180

// corner is how the inner face passes an end of a piece: the vertex it passes
// through, and how far along the tangent that vertex lies from the foot of the
// normal. At the start of a piece tau > 0 trims the inner face, at its end
// tau > 0 lengthens it.
type corner struct {
	vertex Point
	tau    float64
}

// Inner returns the inner face of a wall: the meridian set off along the
// inward normal by w, its corners mitred. An end on the axis stays on the axis
// and an open end stays in its plane z, so that the volume between the two
// faces is the volume of the wall:
//
//	O(s) = P(s) - t(s) n(s),  dO/ds = (1 - κ1 t) T - t' n
//
// Lines under a straight wall give lines, arcs under a constant wall give arcs,
// everything else Hermite cubics of at most 5 degrees of turn. A mitre between
// curved pieces is second order in the wall. It fails where the wall is as thick as a convex
// radius, eats up a short piece between two corners, reaches the axis or makes
// the inner face cross itself; the message names the row.
func (m *Meridian) Inner(w Wall) (*Meridian, error) {
	if err := w.Check(); err != nil {
		return nil, err
	}
	n := len(m.pieces)
	out := &Meridian{rows: m.rows, pieces: make([]piece, 0, 8*n+len(w.between(0, m.total.Length)))}
	begin, err := m.endAt(w, &m.pieces[0], 0, 0)
	if err != nil {
		return nil, err
	}
	for i := range m.pieces {
		var end, next corner
		if i+1 < n {
			end, next, err = m.mitre(w, i+1)
		} else {
			end, err = m.endAt(w, &m.pieces[n-1], 1, m.total.Length)
		}
		if err != nil {
			return nil, err
		}
		if err := m.setOff(out, w, i, begin, end); err != nil {
			return nil, err
		}
		begin = next
	}
	if len(out.pieces) == 0 {
		return nil, fmt.Errorf("curve: inner face: nothing is left inside the wall")
	}
	out.finish()
	if err := out.checkCrossing("inner face of the wall"); err != nil {
		return nil, fmt.Errorf("%w; or thin the wall there", err)
	}
	return out, nil
}

// mitre returns how the inner face passes the joint where piece i begins: at
// the end of piece i-1 and at the start of piece i.
func (m *Meridian) mitre(w Wall, i int) (end, start corner, err error) {
	a, b := unit(m.pieces[i-1].d1(1)), unit(m.pieces[i].d1(0))
	p := m.pieces[i].p0
	t, _ := w.At(m.pieces[i].s0)
	cos := a.Z*b.Z + a.R*b.R
	left := a.Z*b.R - a.R*b.Z
	if turn := math.Atan2(math.Abs(left), cos); turn > sharpest {
		return end, start, fmt.Errorf("curve: %s: the profile turns by %.0f degrees here, more than the %.0f a wall can follow: insert a radius",
			named(m.rows, m.pieces[i-1].row), turn*180/math.Pi, sharpest*180/math.Pi)
	}
	k := t / (1 + cos)
	v := Point{p.Z + k*(a.R+b.R), p.R - k*(a.Z+b.Z)}
	tau := k * left // left turn: concave from outside, the inner face is longer
	return corner{v, tau}, corner{v, -tau}, nil
}

// endAt returns how the inner face ends at u (0 or 1) of the first or last
// piece: on the axis, or in the plane z of an open end.
func (m *Meridian) endAt(w Wall, c *piece, u, s float64) (corner, error) {
	p, d := c.at(u), unit(c.d1(u))
	t, _ := w.At(s)
	n := Point{-d.R, d.Z}
	foot := Point{p.Z - t*n.Z, p.R - t*n.R}
	var tau float64
	switch {
	case p.R <= 1e-12:
		if math.Abs(d.R) < 0.2 {
			return corner{}, fmt.Errorf("curve: %s: the profile meets the axis at %.0f degrees, too sharp for a wall: let it arrive at 12 degrees or more",
				named(m.rows, c.row), math.Abs(math.Asin(d.R))*180/math.Pi)
		}
		tau = t * d.Z / d.R
		return corner{Point{p.Z + t/d.R, 0}, tau}, nil
	case math.Abs(d.Z) > 0.2:
		tau = t * n.Z / d.Z
		return corner{Point{p.Z, p.R - t/d.Z}, tau}, nil
	}
	return corner{foot, 0}, nil
}

// node is a point of the inner face over arc length s of its outer piece.
type node struct {
	s    float64
	o    Point
	foot bool // o is the foot of the normal, not the vertex of a mitre
}

// setOff appends the inner face of piece i to out.
func (m *Meridian) setOff(out *Meridian, w Wall, i int, begin, end corner) error {
	c := &m.pieces[i]
	length := c.sum.Length
	tiny := 1e-9 * m.total.Length
	fold := func(t float64) error {
		return fmt.Errorf("curve: %s: a wall of %s folds on the piece from %s, which is too short or too tight for it: lengthen the piece, enlarge the radius or thin the wall",
			named(m.rows, c.row), mm(t), named(m.rows, c.row-1))
	}
	face := func(s float64) (o Point, bend, t float64) {
		u := c.uAt(s)
		p, d := c.at(u), unit(c.d1(u))
		t, _ = w.At(c.s0 + s)
		return Point{p.Z + t*d.R, p.R - t*d.Z}, c.bend(u), t
	}
	// where the untrimmed part begins and ends
	t0, _ := w.At(c.s0)
	t1, _ := w.At(c.s0 + length)
	b0, b1 := c.bend(0), c.bend(1)
	if b0*t0 >= 1-1e-9 || b1*t1 >= 1-1e-9 {
		return fold(math.Max(t0, t1))
	}
	from := math.Max(0, begin.tau) / (1 - b0*t0)
	to := length + math.Min(0, end.tau)/(1-b1*t1)
	if to-from < tiny {
		return fold(math.Max(t0, t1))
	}
	curved := c.form != formLine
	var nodes []node
	keep := func(s float64) {
		if s > from+tiny && s < to-tiny && (len(nodes) == 0 || s > nodes[len(nodes)-1].s+tiny) {
			o, _, _ := face(s)
			nodes = append(nodes, node{s, o, true})
		}
	}
	// samples of a curved piece and stations of the wall, merged
	breaks := w.between(c.s0, c.s0+length)
	steps := 1
	if curved {
		steps = c.chords(math.Pi / 36)
		if _, slope := w.At(c.s0 + length/2); c.form == formArc && len(breaks) == 0 && slope == 0 {
			steps = c.chords(math.Pi / 3)
			if begin.tau != 0 || end.tau != 0 {
				steps = c.chords(math.Pi / 18)
			}
		}
	}
	k := 1
	for _, s := range breaks {
		for ; k < steps && length*float64(k)/float64(steps) < s-c.s0-tiny; k++ {
			keep(length * float64(k) / float64(steps))
		}
		keep(s - c.s0)
	}
	for ; k < steps; k++ {
		keep(length * float64(k) / float64(steps))
	}
	// ends: a curved piece that must grow gets a straight lip
	first := node{from, begin.vertex, math.Abs(begin.tau) <= tiny}
	last := node{to, end.vertex, math.Abs(end.tau) <= tiny}
	lipFirst, lipLast := curved && begin.tau < -tiny, curved && end.tau > tiny
	if lipFirst {
		o, _, _ := face(0)
		first.o, first.foot = o, true
	}
	if lipLast {
		o, _, _ := face(length)
		last.o, last.foot = o, true
	}
	if lipFirst {
		out.pieces = append(out.pieces, lineOf(begin.vertex, first.o, c.row))
	}
	a := first
	for _, b := range append(nodes, last) {
		if err := m.join(out, w, c, a, b, fold); err != nil {
			return err
		}
		a = b
	}
	if lipLast {
		out.pieces = append(out.pieces, lineOf(last.o, end.vertex, c.row))
	}
	return nil
}

// join appends the inner face between two nodes of one outer piece.
func (m *Meridian) join(out *Meridian, w Wall, c *piece, a, b node, fold func(float64) error) error {
	ds := b.s - a.s
	ua, ub := c.uAt(a.s), c.uAt(b.s)
	um := c.uAt((a.s + b.s) / 2)
	tm, slope := w.At(c.s0 + (a.s+b.s)/2)
	d := unit(c.d1(um))
	along := (b.o.Z-a.o.Z)*d.Z + (b.o.R-a.o.R)*d.R
	if along <= 0 || c.bend(um)*tm >= 1-1e-9 {
		return fold(tm)
	}
	if b.o.R < -1e-12 || a.o.R < -1e-12 {
		return fmt.Errorf("curve: %s: a wall of %s reaches the axis at z %s, where the outer radius is only %s: thin the wall or widen the profile",
			named(m.rows, c.row), mm(tm), mm(c.at(um).Z), mm(c.at(um).R))
	}
	if c.form == formLine {
		out.pieces = append(out.pieces, lineOf(a.o, b.o, c.row))
		return nil
	}
	if c.form == formArc && slope == 0 && a.foot && b.foot {
		r := -(c.rad + tm) // concave from outside: the inner face is the larger arc
		if c.sweep < 0 {
			r = c.rad - tm
		}
		out.pieces = append(out.pieces, arcOf(a.o, b.o, r, c.row))
		return nil
	}
	rate := func(u, s float64) Point {
		d := unit(c.d1(u))
		t, _ := w.At(c.s0 + s)
		k := 1 - c.bend(u)*t
		return Point{ds * (k*d.Z + slope*d.R), ds * (k*d.R - slope*d.Z)}
	}
	p := cubicOf(a.o, b.o, rate(ua, a.s), rate(ub, b.s), c.row)
	cuts := append(append([]float64{0}, p.turns(true)...), 1)
	if len(cuts) == 2 {
		out.pieces = append(out.pieces, p)
		return nil
	}
	for k := 1; k < len(cuts); k++ {
		out.pieces = append(out.pieces, p.part(cuts[k-1], cuts[k]))
	}
	return nil
}
