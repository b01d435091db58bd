package curve

import "math"

// CutZ returns the arc lengths [m] at which the meridian passes through the
// plane z, rising. A level part in the plane counts where it is left.
func (m *Meridian) CutZ(z float64) []float64 {
	var out []float64
	for i := range m.pieces {
		c := &m.pieces[i]
		a, b := c.p0.Z, c.p1.Z
		if a == b {
			continue
		}
		if (a <= z && z < b) || (b < z && z <= a) {
			out = append(out, c.s0+c.moments(0, c.crossing(z)).Length)
		}
	}
	if m.Last().Z == z {
		if n := len(out); n == 0 || out[n-1] < m.total.Length {
			out = append(out, m.total.Length)
		}
	}
	return out
}

// Below returns the volume [m³] of the solid of revolution below the plane z
// and the area [m²] in which the plane cuts it, dV/dz. The meridian must begin
// on the axis or on a level disc that closes it; where z falls (a re-entrant
// base) the solid lies above the curve, which the signs take care of.
//
//	V(z) = π ∫_{z' < z} r² dz',  A(z) = π Σ ± r² over the crossings
func (m *Meridian) Below(z float64) (volume, area float64) {
	b := m.below(z)
	return math.Pi * b.solid, math.Pi * b.area
}

type belowSum struct{ solid, solidZ, area float64 }

func (m *Meridian) below(z float64) belowSum {
	var t belowSum
	for i := range m.pieces {
		c := &m.pieces[i]
		lo, hi := c.p0.Z, c.p1.Z
		up := 1.0
		if hi < lo {
			lo, hi, up = hi, lo, -1
		}
		switch {
		case lo == hi || z < lo:
		case z >= hi:
			t.solid += c.sum.Solid
			t.solidZ += c.sum.SolidZ
			if z == hi && up > 0 && i == len(m.pieces)-1 {
				t.area += c.p1.R * c.p1.R
			}
		default:
			u := c.crossing(z)
			var q Moments
			if up > 0 {
				q = c.moments(0, u)
			} else {
				q = c.moments(u, 1)
			}
			t.solid += q.Solid
			t.solidZ += q.SolidZ
			r := c.at(u).R
			t.area += up * r * r
		}
	}
	return t
}

// CentroidBelow returns the z of the centroid [m] of the solid below the plane
// z; 0 when there is none.
func (m *Meridian) CentroidBelow(z float64) float64 {
	b := m.below(z)
	return ratio(b.solidZ, b.solid)
}
