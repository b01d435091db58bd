package blow

import (
	"math"

	"costrel/num/banded"
	"costrel/physics/resin"
)

// heatBook adds up where heat went [J].
type heatBook struct {
	start, work, fusion                 float64
	toMould, toInside, toOutside, toRod float64

	lower, diag, upper, rhs, flow []float64 // one wall
	growth                        resin.RateTable
	growthTop                     float64
}

func newHeatBook(L int, c *Case) heatBook {
	b := heatBook{
		lower: make([]float64, L), diag: make([]float64, L), upper: make([]float64, L), rhs: make([]float64, L), flow: make([]float64, L+1),
		growth: c.Crystal.Shape.Table(),
	}
	b.growthTop = c.Crystal.Shape.Rate(c.Crystal.Shape.Fastest)
	return b
}

// content is the heat of the wall over that at 342 K [J].
func (s *solver) content() float64 {
	w := s.w
	var h float64
	for i, T := range w.T {
		h += w.rho * w.vol[i] * resin.HeatContent(T)
	}
	return h
}

// heatStep heats the wall by its own work and crystals and lets heat flow
// through it and off its faces: implicit conduction through the layers of each
// element, the heat content kept to the last digit. moving is false when the
// wall lies still in the mould.
func (s *solver) heatStep(dt float64, moving bool) {
	w := s.w
	L := w.layers
	rec := &s.c.Recipe
	num := &s.c.Numbers
	b := &s.heat
	share := min(max(s.p/30e5, 0), 1)
	hc := rec.ContactLow + (rec.Contact-rec.ContactLow)*share
	Tair, Tout, Trod := s.air.T, float64(rec.Outside), float64(rec.RodHeat)
	for e := range w.n {
		Q, q, rm := w.shape(e)
		l := math.Sqrt(Q)
		on := 0.0
		var Tm float64
		if s.prof != nil {
			if w.touched[e] >= 0 {
				on += 0.5
			}
			if w.touched[e+1] >= 0 {
				on += 0.5
			}
			Tm = s.prof.zone((w.z[e] + w.z[e+1]) / 2)
		}
		lim := s.c.Crystal.Limit(0)
		if on == 1 {
			lim = s.c.Crystal.Limit(Tm)
		}
		rod := 0.0
		if w.onRod[e] {
			rod += 0.5
		}
		if w.onRod[e+1] {
			rod += 0.5
		}
		// faces: conductance to each neighbour, through the layer from its point
		half := func(k int) (area, in, out float64) { // [m²], [K/W]
			i := e*L + k
			area = 2 * math.Pi * math.Sqrt(math.Max(rm*rm+w.bk[i]*q, 1e-18)) * l
			res := w.vol[i] / (area * area) / num.Conductivity
			return area, res * w.below[k], res * (1 - w.below[k])
		}
		aIn, rIn, before := half(0)
		aOut, _, rOut := half(L - 1)
		series := func(h, a, r float64) float64 {
			if h <= 0 {
				return 0
			}
			return 1 / (1/(h*a) + r)
		}
		gAir := (1 - rod) * series(rec.InsideHeat, aIn, rIn)
		gRod := rod * series(rec.RodContact, aIn, rIn)
		gMould := on * series(hc, aOut, rOut)
		gOut := (1 - on) * series(rec.OutsideHeat, aOut, rOut)
		for k := range L {
			i := e*L + k
			T := w.T[i]
			m := w.rho * w.vol[i]
			// own heat first
			var own float64
			if moving {
				own = s.workOf(i)
				b.work += own
			}
			if f := s.crystalStep(i, T, lim, dt); f > 0 {
				f *= num.FusionHeat * m
				b.fusion += f
				own += f
			}
			if own != 0 {
				T = resin.TemperatureOf(resin.HeatContent(T) + own/m)
				w.T[i] = T
			}
			c := m * resin.HeatSlope(T) / dt
			b.lower[k], b.diag[k], b.upper[k], b.rhs[k] = 0, c, 0, c*T
			if k > 0 {
				_, to, past := half(k)
				g := 1 / (before + to)
				before = past
				b.flow[k] = g
				b.lower[k] = -g
				b.diag[k] += g
				b.upper[k-1] = -g
				b.diag[k-1] += g
			}
		}
		b.diag[0] += gAir + gRod
		b.rhs[0] += gAir*Tair + gRod*Trod
		b.diag[L-1] += gMould + gOut
		b.rhs[L-1] += gMould*Tm + gOut*Tout
		banded.Line(b.lower, b.diag, b.upper, b.rhs)
		// flows of the implicit temperatures move heat content exactly
		in, out := b.rhs[0], b.rhs[L-1]
		qAir, qRod := gAir*(in-Tair)*dt, gRod*(in-Trod)*dt
		qMould, qOut := gMould*(out-Tm)*dt, gOut*(out-Tout)*dt
		b.toInside += qAir
		b.toRod += qRod
		b.toMould += qMould
		b.toOutside += qOut
		for k := range L {
			i := e*L + k
			gain := 0.0
			if k > 0 {
				gain += b.flow[k] * (b.rhs[k-1] - b.rhs[k]) * dt
			} else {
				gain -= qAir + qRod
			}
			if k < L-1 {
				gain += b.flow[k+1] * (b.rhs[k+1] - b.rhs[k]) * dt
			} else {
				gain -= qMould + qOut
			}
			w.T[i] = resin.TemperatureOf(resin.HeatContent(w.T[i]) + gain/(w.rho*w.vol[i]))
		}
	}
}

// workOf is the work done on a point in the step [J], with the
// stress at its end as in the implicit step; all of it becomes heat.
func (s *solver) workOf(i int) float64 {
	w := s.w
	a, b := &w.state[i], &w.next[i]
	d1, d2 := b.Strain[0]-a.Strain[0], b.Strain[1]-a.Strain[1]
	return w.vol[i] * (w.sig[2*i]*d1 + w.sig[2*i+1]*d2)
}

// crystalStep takes the crystallinity of a point over dt and returns its rise.
func (s *solver) crystalStep(i int, T, lim, dt float64) float64 {
	w := s.w
	b := &s.heat
	k := b.growth.Rate(T)
	if k == 0 {
		return 0
	}
	w.theta[i] += k * dt
	st := &w.next[i]
	c := &s.c.Crystal
	if max(st.Net[0], st.Net[1]) < 0.3 {
		return 0
	}
	inv := s.w.law.NetInvariant(st)
	if inv <= c.Onset {
		return 0
	}
	x := c.Step(w.X[i], lim, k/b.growthTop, inv, dt)
	d := x - w.X[i]
	w.X[i] = x
	return d
}

// innerArea returns the area of the inner face [m²].
func (s *solver) innerArea() float64 {
	w := s.w
	var a float64
	for e := range w.n {
		Q, q, rm := w.shape(e)
		a += 2 * math.Pi * math.Sqrt(math.Max(rm*rm+w.bk[e*w.layers]*q, 0)) * math.Sqrt(Q)
	}
	return a
}

// innerHeat returns the mean temperature of the innermost layers [K].
func (s *solver) innerHeat() float64 {
	w := s.w
	var a, t float64
	for e := range w.n {
		i := e * w.layers
		a += w.vol[i]
		t += w.vol[i] * w.T[i]
	}
	return t / a
}
