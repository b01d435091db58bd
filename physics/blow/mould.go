package blow

import (
	"fmt"
	"math"
	"sort"

	"costrel/unit"
)

// Mould is the cavity by its profile of revolution from the ledge (z = 0) to
// the centre of the base (r = 0), and the temperature of its parts.
type Mould struct {
	Z, R  []float64 // depth below the ledge and radius [m]
	Zones []Zone    // from the ledge down; at least one
	// AreaRatio is the true area of the base over that of its round average
	// below AreaFrom; 0 or 1: round. A warning says what it means for the wall.
	AreaRatio, AreaFrom float64
}

// Zone is a part of the mould: from the depth From downwards.
type Zone struct {
	From float64
	T    unit.Temperature
}

// FromStanding returns the mould of a bottle profile given by height above the
// standing plane and outer radius, from the base up: the ledge is at height
// ledge. Points above the ledge are cut; a profile that ends below it is
// carried straight up, one whose first radius is not 0 is closed flat to the
// axis.
func FromStanding(height, radius []float64, ledge float64, zones ...Zone) (*Mould, error) {
	if len(height) < 2 || len(height) != len(radius) {
		return nil, fmt.Errorf("blow: mould: %d heights and %d radii: want as many and 2 at least", len(height), len(radius))
	}
	m := &Mould{Zones: zones}
	add := func(z, r float64) { m.Z, m.R = append(m.Z, z), append(m.R, r) }
	n := len(height)
	if height[n-1] < ledge {
		add(0, radius[n-1])
	}
	for i := n - 1; i >= 0; i-- {
		if height[i] > ledge {
			continue
		}
		if len(m.Z) == 0 && height[i] < ledge { // the crossing
			w := (ledge - height[i]) / (height[i+1] - height[i])
			add(0, radius[i]+w*(radius[i+1]-radius[i]))
		}
		add(ledge-height[i], radius[i])
	}
	if radius[0] > 0 {
		add(ledge-height[0], 0)
	}
	return m, nil
}

// profile is a mould made ready for questions of distance.
type profile struct {
	z, r   []float64
	nz, nr []float64 // normal into the cavity, a segment
	vz, vr []float64 // normal at the points
	arc    []float64
	zones  []Zone
	base   float64 // depth of the centre of the base
	deep   float64 // greatest depth
}

func (m *Mould) profile() (*profile, error) {
	n := len(m.Z)
	if n < 2 || len(m.R) != n {
		return nil, fmt.Errorf("blow: mould: %d depths and %d radii: want as many and 2 at least", n, len(m.R))
	}
	if n > 20000 {
		return nil, fmt.Errorf("blow: mould: %d points above 20000", n)
	}
	p := &profile{}
	for i := range n {
		z, r := m.Z[i], m.R[i]
		if !finite(z) || !finite(r) || math.Abs(z) > 2 || r > 1 {
			return nil, fmt.Errorf("blow: mould: point %d (%g, %g) m is not finite or beyond ‹2 m›", i+1, z, r)
		}
		if r < -1e-9 {
			return nil, fmt.Errorf("blow: mould: point %d at depth ‹%.2f mm› has radius ‹%.3g mm› below 0", i+1, z*1e3, r*1e3)
		}
		r = max(r, 0)
		if k := len(p.z); k > 0 && math.Hypot(z-p.z[k-1], r-p.r[k-1]) < 1e-7 {
			continue
		}
		p.z, p.r = append(p.z, z), append(p.r, r)
	}
	n = len(p.z)
	if n < 2 {
		return nil, fmt.Errorf("blow: mould: fewer than 2 different points")
	}
	if math.Abs(p.z[0]) > 1e-4 {
		return nil, fmt.Errorf("blow: mould: profile begins at depth ‹%.3g mm›: want the ledge at 0", p.z[0]*1e3)
	}
	if p.r[n-1] > 1e-6 {
		return nil, fmt.Errorf("blow: mould: profile ends at radius ‹%.3g mm›: want the centre of the base on the axis", p.r[n-1]*1e3)
	}
	for i := range n - 1 {
		if i > 0 && p.r[i] < 1e-6 {
			return nil, fmt.Errorf("blow: mould: profile touches the axis at depth ‹%.2f mm› before its end", p.z[i]*1e3)
		}
	}
	if i, j := p.crossing(); i >= 0 {
		return nil, fmt.Errorf("blow: mould: profile folds: the stretch from depth ‹%.2f mm› crosses the one from ‹%.2f mm›: correct the points there", p.z[i]*1e3, p.z[j]*1e3)
	}
	p.arc = make([]float64, n)
	p.nz, p.nr = make([]float64, n-1), make([]float64, n-1)
	for i := range n - 1 {
		dz, dr := p.z[i+1]-p.z[i], p.r[i+1]-p.r[i]
		l := math.Hypot(dz, dr)
		p.arc[i+1] = p.arc[i] + l
		p.nz[i], p.nr[i] = dr/l, -dz/l // to the inside when walking down the outside
	}
	var area float64
	for i := range n - 1 {
		area += (p.z[i+1] - p.z[i]) * (p.r[i+1] + p.r[i]) / 2
	}
	if !(area > 0) {
		return nil, fmt.Errorf("blow: mould: profile runs upwards: want it from the ledge down to the base")
	}
	p.vz, p.vr = make([]float64, n), make([]float64, n)
	for i := range n {
		a, b := max(i-1, 0), min(i, n-2)
		z, r := p.nz[a]+p.nz[b], p.nr[a]+p.nr[b]
		if i == n-1 {
			r = 0 // mirrored at the axis
			if z == 0 {
				z = -1
			}
		}
		l := math.Hypot(z, r)
		if l < 1e-12 {
			return nil, fmt.Errorf("blow: mould: profile turns back on itself at depth ‹%.2f mm›: correct the points there", p.z[i]*1e3)
		}
		p.vz[i], p.vr[i] = z/l, r/l
	}
	p.base = p.z[n-1]
	p.deep = p.base
	for _, z := range p.z {
		p.deep = max(p.deep, z)
	}
	if len(m.Zones) == 0 {
		return nil, fmt.Errorf("blow: mould: no temperature zone: give at least one")
	}
	for i, zn := range m.Zones {
		if !(zn.T >= 253.15 && zn.T <= 473.15) {
			return nil, fmt.Errorf("blow: mould: zone %d: temperature ‹%.1f °C› outside ‹-20..200 °C›", i+1, zn.T.Celsius())
		}
		if !finite(zn.From) || i > 0 && zn.From <= m.Zones[i-1].From {
			return nil, fmt.Errorf("blow: mould: zone %d begins at ‹%.2f mm›: want zones from the ledge down", i+1, zn.From*1e3)
		}
	}
	p.zones = m.Zones
	return p, nil
}

// crossing returns two segments that cross, or -1. A sweep over depth keeps
// the work near the number of points for ordinary profiles.
func (p *profile) crossing() (int, int) {
	n := len(p.z) - 1
	order := make([]int, n)
	lo := func(i int) float64 { return min(p.z[i], p.z[i+1]) }
	hi := func(i int) float64 { return max(p.z[i], p.z[i+1]) }
	for i := range order {
		order[i] = i
	}
	sort.Slice(order, func(a, b int) bool { return lo(order[a]) < lo(order[b]) })
	var open []int
	for _, i := range order {
		k := 0
		for _, j := range open {
			if hi(j) < lo(i) {
				continue
			}
			open[k] = j
			k++
			a, b := min(i, j), max(i, j)
			if b-a > 1 && p.cross(a, b) {
				return a, b
			}
		}
		open = append(open[:k], i)
	}
	return -1, -1
}

func (p *profile) cross(i, j int) bool {
	side := func(a, b, c int) float64 {
		return (p.z[b]-p.z[a])*(p.r[c]-p.r[a]) - (p.r[b]-p.r[a])*(p.z[c]-p.z[a])
	}
	return side(i, i+1, j)*side(i, i+1, j+1) < 0 && side(j, j+1, i)*side(j, j+1, i+1) < 0
}

// distance returns the distance of a point to the profile, positive inside,
// with the nearest segment and the unit normal into the cavity there.
func (p *profile) distance(z, r float64) (d float64, seg int, nz, nr float64) {
	best := math.Inf(1)
	var bt float64
	for i := range p.nz {
		az, ar := p.z[i], p.r[i]
		dz, dr := p.z[i+1]-az, p.r[i+1]-ar
		t := ((z-az)*dz + (r-ar)*dr) / (dz*dz + dr*dr)
		t = min(max(t, 0), 1)
		x, y := z-az-t*dz, r-ar-t*dr
		if q := x*x + y*y; q < best {
			best, seg, bt = q, i, t
		}
	}
	nz, nr = p.nz[seg], p.nr[seg]
	switch bt {
	case 0:
		nz, nr = p.vz[seg], p.vr[seg]
	case 1:
		nz, nr = p.vz[seg+1], p.vr[seg+1]
	}
	fz, fr := p.z[seg]+bt*(p.z[seg+1]-p.z[seg]), p.r[seg]+bt*(p.r[seg+1]-p.r[seg])
	d = math.Sqrt(best)
	if (z-fz)*nz+(r-fr)*nr < 0 {
		d = -d
	}
	return d, seg, nz, nr
}

// radiusAt returns the greatest radius of the mould at a depth; false beyond it.
func (p *profile) radiusAt(z float64) (float64, bool) {
	widest, found := 0.0, false
	for i := range p.nz {
		a, b := p.z[i], p.z[i+1]
		if (z-a)*(z-b) > 0 || a == b {
			continue
		}
		widest, found = max(widest, p.r[i]+(z-a)/(b-a)*(p.r[i+1]-p.r[i])), true
	}
	return widest, found
}

// closed is distance with the mould shut by a flat lid at the ledge: above it
// the finish is held and no wall can go.
func (p *profile) closed(z, r float64) (d, nz, nr float64) {
	d, _, nz, nr = p.distance(z, r)
	if z < d {
		return z, 1, 0
	}
	return d, nz, nr
}

// zone returns the mould temperature [K] at depth z.
func (p *profile) zone(z float64) float64 {
	T := p.zones[0].T
	for _, zn := range p.zones[1:] {
		if z >= zn.From {
			T = zn.T
		}
	}
	return float64(T)
}
