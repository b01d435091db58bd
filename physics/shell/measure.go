package shell

import (
	"fmt"
	"math"
)

// below returns the volume inside the pressure face below a height, as it is.
func (m *Model) below(z float64) float64 {
	V := 0.0
	ar, az := m.face(0)
	for i := 1; i < m.n; i++ {
		br, bz := m.face(i)
		r1, z1, r2, z2 := ar, az, br, bz
		ar, az = br, bz
		if z1 > z && z2 > z {
			continue
		}
		if z1 > z {
			x := (z - z1) / (z2 - z1)
			r1, z1 = r1+x*(r2-r1), z
		} else if z2 > z {
			x := (z - z1) / (z2 - z1)
			r2, z2 = r1+x*(r2-r1), z
		}
		V += math.Pi / 3 * (r1*r1 + r1*r2 + r2*r2) * (z2 - z1)
	}
	return V
}

// face returns the place of a node's pressure face as it is.
func (m *Model) face(i int) (r, z float64) {
	s, c := math.Sincos(m.u[3*i+2])
	nr, nz := m.mesh.NR[i], m.mesh.NZ[i]
	o := -m.off[i]
	return m.mesh.R[i] + m.u[3*i] + o*(c*nr-s*nz), m.mesh.Z[i] + m.u[3*i+1] + o*(c*nz+s*nr)
}

// outer returns the place of a node's outer face as it is.
func (m *Model) outer(i int) (r, z float64) {
	s, c := math.Sincos(m.u[3*i+2])
	nr, nz := m.mesh.NR[i], m.mesh.NZ[i]
	o := 0.5 * m.mesh.T[i]
	return m.mesh.R[i] + m.u[3*i] + o*(c*nr-s*nz), m.mesh.Z[i] + m.u[3*i+1] + o*(c*nz+s*nr)
}

// filling is the liquid in a bottle.
type filling struct {
	volume float64 // [m³]; 0 for none
	sunk   float64 // how far it stood below the fill point of the unloaded bottle when it was first read [m]
}

// liquid returns what is filled, at the unloaded state.
func (in *GrowInput) liquid(m *Model) (filling, error) {
	if in.FillDepth == 0 {
		return filling{}, nil
	}
	_, top := m.face(m.n - 1)
	_, low := m.face(0)
	if !(in.FillDepth > 0 && in.FillDepth < 0.8*(top-low)) {
		return filling{}, fmt.Errorf("shell: growth: fill point ‹%.2f mm› below the top, bottle ‹%.2f mm› high", in.FillDepth*1e3, (top-low)*1e3)
	}
	if math.Abs(in.LiquidGain) > 0.1 {
		return filling{}, fmt.Errorf("shell: growth: relative gain of the liquid %g outside ±0.1", in.LiquidGain)
	}
	return filling{volume: m.below(top-in.FillDepth) * (1 + in.LiquidGain)}, nil
}

func (in *GrowInput) measure(m *Model, p *prepared, t float64, liquid filling) Growth {
	g := Growth{Time: t, Pressure: m.p, Volume: m.vol/m.volume0 - 1}
	for i := p.ring; i < m.n; i++ {
		r0 := m.mesh.R[i] + 0.5*m.mesh.T[i]*m.mesh.NR[i]
		if r0 < 0.5*p.radius {
			continue
		}
		r, _ := m.outer(i)
		if d := r/r0 - 1; d > g.Diameter {
			g.Diameter, g.DiameterZ = d, m.mesh.Z[i]
		}
	}
	for i := p.ring; in.GaugeZ > 0 && i+1 < m.n; i++ {
		a, b := m.mesh.Z[i], m.mesh.Z[i+1]
		if a <= in.GaugeZ && in.GaugeZ <= b && a < b {
			x := (in.GaugeZ - a) / (b - a)
			grown := func(k int) float64 {
				r, _ := m.outer(k)
				return r/(m.mesh.R[k]+0.5*m.mesh.T[k]*m.mesh.NR[k]) - 1
			}
			g.Gauge = (1-x)*grown(i) + x*grown(i+1)
			break
		}
	}
	g.Height = m.u[3*p.top+1] - m.u[3*p.ring+1]
	if m.mesh.R[0] < 1e-9 {
		g.Clearance = m.clearance(p)
		if p.edge > 0 {
			g.Sag = m.u[3*p.edge+1] - m.u[1]
		}
	}
	for i := range m.mesh.el {
		if s := m.hoop(i); s > g.Stress {
			e := &m.mesh.el[i]
			g.Stress, g.StressZ, g.StressR, g.StressT = s, 0.5*(m.mesh.Z[i]+m.mesh.Z[i+1]), e.r, e.t
		}
	}
	if liquid.volume > 0 {
		_, top := m.face(p.top)
		// The level at which the deformed bottle holds the liquid.
		lo, hi := top-3*in.FillDepth-0.05, top
		for range 80 {
			mid := 0.5 * (lo + hi)
			if m.below(mid) < liquid.volume {
				lo = mid
			} else {
				hi = mid
			}
		}
		g.FillDrop = top - 0.5*(lo+hi) - in.FillDepth - liquid.sunk
	}
	return g
}
