package curve

import (
	"errors"
	"fmt"
	"math"
	"sort"
)

// Meridian is a plane curve (z, r), r >= 0, that does not cross itself. Build
// it with [New]. It is immutable and safe to share.
type Meridian struct {
	rows   []Row
	pieces []piece
	total  Moments
}

// New builds the meridian through the rows of a table, from foot to mouth.
// spline says how runs of rows marked [Curve] are joined; empty is [Natural].
//
// It fails when a row has negative r, repeats the row before it, has an arc
// radius below half its chord or an unknown kind of piece; when a piece swings
// to negative r or has a cusp; and when the profile crosses itself. Every fault
// of the table is reported at once.
func New(rows []Row, spline Spline) (*Meridian, error) {
	if err := checkRows(rows); err != nil {
		return nil, err
	}
	switch spline {
	case "":
		spline = Natural
	case Natural, Tangent, Monotone:
	default:
		return nil, fmt.Errorf("curve: spline %q is not natural, tangent or monotone", spline)
	}
	rows = append([]Row(nil), rows...)
	whole := make([]piece, len(rows)) // whole[i] arrives at row i
	for i := 1; i < len(rows); i++ {
		p, q := Point{rows[i-1].Z, rows[i-1].R}, Point{rows[i].Z, rows[i].R}
		switch rows[i].Via {
		case Arc:
			whole[i] = arcOf(p, q, rows[i].Radius, i)
		case Curve:
		default:
			whole[i] = lineOf(p, q, i)
		}
	}
	for i := 1; i < len(rows); i++ {
		if rows[i].Via != Curve {
			continue
		}
		j := i
		for j+1 < len(rows) && rows[j+1].Via == Curve {
			j++
		}
		sew(rows, whole, i, j, spline)
		i = j
	}
	m := &Meridian{rows: rows}
	var faults []error
	for i := 1; i < len(rows); i++ {
		if err := checkPiece(rows, &whole[i]); err != nil {
			faults = append(faults, err)
			continue
		}
		cuts := append(append([]float64{0}, whole[i].turns(true)...), 1)
		if len(cuts) == 2 {
			m.pieces = append(m.pieces, whole[i])
			continue
		}
		for k := 1; k < len(cuts); k++ {
			m.pieces = append(m.pieces, whole[i].part(cuts[k-1], cuts[k]))
		}
	}
	if faults != nil {
		return nil, errors.Join(faults...)
	}
	m.finish()
	if err := m.checkCrossing("profile"); err != nil {
		return nil, err
	}
	return m, nil
}

// sew fills whole[i..j] with the spline through rows i-1..j.
func sew(rows []Row, whole []piece, i, j int, kind Spline) {
	n := j - i + 2
	t, z, r := make([]float64, n), make([]float64, n), make([]float64, n)
	for k := range n {
		w := rows[i-1+k]
		z[k], r[k] = w.Z, w.R
		if k > 0 {
			t[k] = t[k-1] + math.Hypot(z[k]-z[k-1], r[k]-r[k-1])
		}
	}
	var start, end [2]*float64
	unit := func(d Point) [2]*float64 {
		v := math.Hypot(d.Z, d.R)
		a, b := d.Z/v, d.R/v
		return [2]*float64{&a, &b}
	}
	if kind == Tangent {
		if i > 1 {
			start = unit(whole[i-1].d1(1))
		}
		if j+1 < len(rows) {
			end = unit(whole[j+1].d1(0))
		}
	}
	dz := splineSlopes(kind, t, z, start[0], end[0])
	dr := splineSlopes(kind, t, r, start[1], end[1])
	for k := 1; k < n; k++ {
		h := t[k] - t[k-1]
		whole[i-1+k] = cubicOf(Point{z[k-1], r[k-1]}, Point{z[k], r[k]},
			Point{dz[k-1] * h, dr[k-1] * h}, Point{dz[k] * h, dr[k] * h}, i-1+k)
	}
}

// checkPiece refuses a piece that swings below the axis or has a cusp.
func checkPiece(rows []Row, c *piece) error {
	for _, u := range c.turns(false) {
		if p := c.at(u); p.R < -1e-12 {
			return fmt.Errorf("curve: %s: the %s from %s swings to r = %s, below the axis: move a point, add one, or use another radius",
				named(rows, c.row), rows[c.row].Via, named(rows, c.row-1), mm(p.R))
		}
	}
	if c.form != formCubic {
		return nil
	}
	chord := math.Hypot(c.p1.Z-c.p0.Z, c.p1.R-c.p0.R)
	for k := range 33 {
		d := c.d1(float64(k) / 32)
		if math.Hypot(d.Z, d.R) < 1e-4*chord {
			return fmt.Errorf("curve: %s: the curve from %s turns back on itself in a cusp: put the points in order along the profile, or make it lines",
				named(rows, c.row), named(rows, c.row-1))
		}
	}
	return nil
}

// finish seals the pieces and sums them.
func (m *Meridian) finish() {
	m.total = Moments{}
	for i := range m.pieces {
		c := &m.pieces[i]
		c.seal()
		c.s0, c.before = m.total.Length, m.total
		m.total = m.total.Plus(c.sum)
	}
}

// Rows returns the table the meridian was built from. The inner face of a
// wall keeps the table of its outer face.
func (m *Meridian) Rows() []Row { return append([]Row(nil), m.rows...) }

// Moments returns the integrals over the whole meridian.
func (m *Meridian) Moments() Moments { return m.total }

// Length returns the arc length [m].
func (m *Meridian) Length() float64 { return m.total.Length }

// First and Last return the ends of the meridian.
func (m *Meridian) First() Point { return m.pieces[0].p0 }

// Last returns the end of the meridian.
func (m *Meridian) Last() Point { return m.pieces[len(m.pieces)-1].p1 }

// MaxR returns the largest radius [m] and the arc length where it is first
// reached.
func (m *Meridian) MaxR() (r, s float64) { return m.extreme(false) }

// MinZ returns the smallest z [m] and the arc length where it is last reached:
// the standing ring of a base.
func (m *Meridian) MinZ() (z, s float64) {
	z, s = math.Inf(1), 0
	for i := range m.pieces {
		c := &m.pieces[i]
		if c.p0.Z <= z {
			z, s = c.p0.Z, c.s0
		}
		if c.p1.Z <= z {
			z, s = c.p1.Z, c.s0+c.sum.Length
		}
	}
	return z, s
}

// extreme returns the largest r (or z) and where it is first reached.
func (m *Meridian) extreme(inZ bool) (v, s float64) {
	v = math.Inf(-1)
	for i := range m.pieces {
		c := &m.pieces[i]
		for _, u := range append(append([]float64{0}, c.turns(inZ)...), 1) {
			p := c.at(u)
			w := p.R
			if inZ {
				w = p.Z
			}
			if w > v {
				v = w
				s = c.s0 + c.moments(0, u).Length
			}
		}
	}
	return v, s
}

// find returns the piece that holds arc length s; at a joint, the later one.
func (m *Meridian) find(s float64) int {
	i := sort.Search(len(m.pieces), func(i int) bool { return m.pieces[i].s0 > s }) - 1
	return max(i, 0)
}

// To returns the moments of the stretch from the beginning to arc length s,
// which is held inside 0..Length.
func (m *Meridian) To(s float64) Moments {
	c := &m.pieces[m.find(s)]
	if s >= c.s0+c.sum.Length {
		return c.before.Plus(c.sum)
	}
	return c.before.Plus(c.moments(0, c.uAt(s-c.s0)))
}
