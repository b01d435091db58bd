package curve

import (
	"fmt"
	"math"
	"sort"
)

// chord is a straight stand-in for a bit of a piece.
type chord struct {
	p, q     Point
	row      int
	n        int // running number along the curve
	zlo, zhi float64
	rlo, rhi float64
}

// checkCrossing refuses a curve that crosses itself. Arcs and splines stand as
// chords of 5 degrees of turn. what names the curve in the message.
func (m *Meridian) checkCrossing(what string) error {
	total := 0
	for i := range m.pieces {
		total += m.pieces[i].chords(math.Pi / 36)
	}
	all := make([]chord, 0, total)
	for i := range m.pieces {
		c := &m.pieces[i]
		n := c.chords(math.Pi / 36)
		prev := c.p0
		for k := 1; k <= n; k++ {
			q := c.at(float64(k) / float64(n))
			all = append(all, chord{
				p: prev, q: q, row: c.row, n: len(all),
				zlo: math.Min(prev.Z, q.Z), zhi: math.Max(prev.Z, q.Z),
				rlo: math.Min(prev.R, q.R), rhi: math.Max(prev.R, q.R),
			})
			prev = q
		}
	}
	order := make([]int, len(all))
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(i, j int) bool { return all[order[i]].zlo < all[order[j]].zlo })
	for i, a := range order {
		for _, b := range order[i+1:] {
			x, y := &all[a], &all[b]
			if y.zlo > x.zhi {
				break
			}
			if d := x.n - y.n; d == 1 || d == -1 || y.rlo > x.rhi || x.rlo > y.rhi {
				continue
			}
			if crosses(x.p, x.q, y.p, y.q) {
				if x.n > y.n {
					x, y = y, x
				}
				return fmt.Errorf("curve: %s: the %s crosses itself near z %s, r %s, where the piece that arrives at %s meets the one at %s: put the rows in order along the profile, or move them apart",
					named(m.rows, y.row), what, mm(y.p.Z), mm(y.p.R), named(m.rows, y.row), named(m.rows, x.row))
			}
		}
	}
	return nil
}

// crosses tells whether the open segments a-b and c-d meet.
func crosses(a, b, c, d Point) bool {
	side := func(p, q, x Point) float64 { return (q.Z-p.Z)*(x.R-p.R) - (q.R-p.R)*(x.Z-p.Z) }
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

// CheckRising refuses a curve on which z falls after arc length s [m]; the
// wall of a moulded body must not fall back below its standing ring. Level
// parts pass.
func (m *Meridian) CheckRising(s float64) error {
	for i := range m.pieces {
		c := &m.pieces[i]
		if c.s0+c.sum.Length <= s*(1+1e-12) || c.p1.Z >= c.p0.Z-1e-9 {
			continue
		}
		return fmt.Errorf("curve: %s: z falls from %s to %s on the way from %s: above the standing ring z must rise; sort the rows, or use a line or a larger radius",
			named(m.rows, c.row), mm(c.p0.Z), mm(c.p1.Z), named(m.rows, c.row-1))
	}
	return nil
}
