package blow

import (
	"fmt"
	"math"
	"slices"

	"costrel/physics/resin"
)

// recorder keeps the course of a run and makes the result.
type recorder struct {
	s         *solver
	out       Result
	progress  Progress
	last      float64
	nextFrame float64
	paths     []float64 // the stretch path of every element at every moment
}

func (r *recorder) reserve() {
	r.out.History = make([]Moment, 0, 4096)
	r.paths = make([]float64, 0, 1024*r.s.w.n)
	tm := r.s.times()
	r.out.RodEnd = tm.rod
	if !math.IsInf(tm.high, 1) {
		r.out.HighAt = tm.high
	}
	if every := r.s.c.Numbers.FrameEvery; every > 0 {
		n := int(min(tm.end/every+4, framesMost))
		r.out.Frames = make([]Frame, 0, n)
	}
}

func (r *recorder) report(share float64) {
	share = min(max(share, r.last), 1)
	r.last = share
	if r.progress != nil {
		r.progress(share)
	}
}

func (r *recorder) record(frame bool) {
	s := r.s
	w := s.w
	m := Moment{Time: s.t, Pressure: s.p, Volume: s.V, Air: s.air.mass, AirT: s.air.T, RodForce: s.rodForce, Deepest: w.z[w.n]}
	if s.c.Recipe.Rod.Speed > 0 {
		m.RodTip = s.tip(s.t)
	}
	var on, all float64
	for i := range w.r {
		m.Widest = max(m.Widest, w.r[i]+w.half[i]*w.nr[i])
		all += w.mass[i]
		if w.touched[i] >= 0 {
			on += w.mass[i]
		}
	}
	m.Contact = on / all
	r.out.History = append(r.out.History, m)
	if r.out.Places == nil { // while the wall still moves
		r.paths = append(r.paths, w.path...)
	}
	r.out.PeakRod = max(r.out.PeakRod, m.RodForce)
	tm := s.times()
	if s.t <= tm.rod+1e-9 {
		r.out.BubbleAt = r.bubble(m.Widest)
	}
	if s.t <= tm.high+1e-12 && s.p > r.out.PeakPre {
		r.out.PeakPre, r.out.PeakPreAt = s.p, s.t
	}
	every := s.c.Numbers.FrameEvery
	if every <= 0 || len(r.out.Frames) >= framesMost || !frame && s.t < r.nextFrame-1e-12 {
		return
	}
	r.nextFrame = s.t + every
	n := w.n
	all3 := make([]float64, 3*(n+1))
	f := Frame{Time: s.t, Pressure: s.p, Z: all3[:n+1], R: all3[n+1 : 2*n+2], Wall: all3[2*n+2:]}
	for i := range n + 1 {
		j := n - i
		f.Z[i], f.R[i] = w.z[j], w.r[j]
		switch {
		case j == 0:
			f.Wall[i] = w.thickness(0)
		case j == n:
			f.Wall[i] = w.thickness(n - 1)
		default:
			f.Wall[i] = (w.thickness(j-1) + w.thickness(j)) / 2
		}
	}
	r.out.Frames = append(r.out.Frames, f)
}

// meanRate is the rate at which an element was stretched [1/s]: eight tenths of
// its stretch path over the time from a tenth to nine tenths of it. The jump of
// the last thin wall onto the mould, in which the rate of an instant has no
// bound, weighs no more than what it stretches.
func (r *recorder) meanRate(e int) float64 {
	n := r.s.w.n
	rows := len(r.paths) / n
	all := r.paths[(rows-1)*n+e]
	when := func(share float64) float64 {
		for i := 1; i < rows; i++ {
			a, b := r.paths[(i-1)*n+e], r.paths[i*n+e]
			if x := share * all; b >= x && b > a {
				t0, t1 := r.out.History[i-1].Time, r.out.History[i].Time
				return t0 + (x-a)/(b-a)*(t1-t0)
			}
		}
		return 0
	}
	if t := when(0.9) - when(0.1); t > 0 {
		return 0.8 * all / t
	}
	return 0
}

// bubble returns how far down the wall is blown, of the way from ledge to gate:
// to half way between the radius at rest and the greatest one.
func (r *recorder) bubble(widest float64) float64 {
	w := r.s.w
	for i := w.n - 1; i > 0; i-- {
		if rest := w.r0[0]; w.r[i]+w.half[i]*w.nr[i] > (rest+widest)/2 && widest > 1.5*rest {
			return w.z[i] / w.z[w.n]
		}
	}
	return 0
}

// endOfBlow notes what belongs to the end of the blow, before cooling.
func (r *recorder) endOfBlow() {
	s := r.s
	w := s.w
	L := w.layers
	r.out.Volume = s.V
	r.out.Places = make([]Place, w.n)
	for i := range r.out.Places {
		e := w.n - 1 - i
		p := &r.out.Places[i]
		var m, T, a, b float64
		for k := range L {
			v := w.vol[e*L+k]
			m += v
			T += v * w.T[e*L+k]
			a += v * w.sig[2*(e*L+k)]
			b += v * w.sig[2*(e*L+k)+1]
		}
		p.BlowT, p.StressAx, p.StressHoop = T/m, a/m, b/m
	}
	for i := 1; i <= w.n; i++ {
		if w.touched[i] >= 0 {
			r.out.Order = append(r.out.Order, Touch{w.touched[i], w.z[i], w.r[i]})
		}
	}
	slices.SortStableFunc(r.out.Order, func(a, b Touch) int {
		switch {
		case a.Time < b.Time:
			return -1
		case a.Time > b.Time:
			return 1
		}
		return 0
	})
}

// finish fills the places, flags and balances.
func (r *recorder) finish() error {
	s := r.s
	w := s.w
	L := w.layers
	o := &r.out
	o.End = s.t
	if s.prof == nil || o.Balance.AirUsed == 0 {
		o.Balance.AirUsed = s.airIn
	}
	arc, origin := 0.0, 0.0
	var mass0 float64
	s.normals()
	for i := range o.Places {
		e := w.n - 1 - i
		p := &o.Places[i]
		Q, q, rm := w.shape(e)
		l := math.Sqrt(Q)
		p.Length, p.span = l, math.Abs(w.z[e+1]-w.z[e])
		p.Z, p.R = (w.z[e]+w.z[e+1])/2, rm
		p.Arc, p.Origin = arc+l/2, origin+w.l0[e]/2
		arc += l
		origin += w.l0[e]
		p.Wall = w.thickness(e)
		p.Areal = w.thick0[e] / p.Wall
		p.Axial = l / w.l0[e]
		p.Hoop = rm / w.rm0[e]
		p.Slack, p.Rate = w.lockLow[e], r.meanRate(e)
		layer := func(k int) float64 {
			j := e*L + k
			return math.Sqrt(math.Max(rm*rm+w.bk[j]*q, 0)) / w.rk0[j]
		}
		p.HoopIn, p.HoopOut = w.faceHoop(e, 0), w.faceHoop(e, 1)
		var vol, T, X float64
		for k := range L {
			j := e*L + k
			v := w.vol[j]
			vol += v
			T += v * w.T[j]
			x := w.X[j]
			rel := s.c.Crystal.Shape.Relative(w.theta[j])
			x += max(s.c.Crystal.Ceiling-x, 0) * rel
			X += v * x
			p.Haze = max(p.Haze, rel)
			p.Net = max(p.Net, w.state[j].NetMax)
			if k == 0 {
				p.TIn, p.XIn = w.T[j], x
			}
			if k == L-1 {
				p.TOut, p.XOut = w.T[j], x
			}
			// thickness by geometry against the strains that the material remembers
			l3 := w.l0[e] / (l * layer(k)) // h over H
			st := &w.state[j]
			o.Balance.VolumeError = max(o.Balance.VolumeError, math.Abs(math.Exp(st.Strain[0]+st.Strain[1])*l3-1))
		}
		p.Mass = w.rho * vol
		mass0 += p.Mass
		p.T, p.X = T/vol, X/vol
		p.Touched = -1
		if w.touched[e] >= 0 && w.touched[e+1] >= 0 {
			p.Touched = max(w.touched[e], w.touched[e+1])
		}
		if s.prof != nil {
			h := p.Wall / 2
			dz, dr := (w.z[e+1]-w.z[e])/l, (w.r[e+1]-w.r[e])/l
			d, _, _, _ := s.prof.distance(p.Z-h*dr, max(p.R+h*dz, 0))
			p.Gap = max(d, 0)
		}
		if !finite(p.Wall + p.T + p.X + p.StressAx + p.StressHoop) {
			return fmt.Errorf("blow: wall at depth ‹%.1f mm› is not finite", p.Z*1e3)
		}
	}
	o.Mass = mass0
	r.balances()
	r.flags()
	return nil
}

func (r *recorder) balances() {
	s := r.s
	w := s.w
	b := &r.out.Balance
	// mass from the present geometry, independent of the layers' volumes
	var now, was float64
	for e := range w.n {
		Q, q, rm := w.shape(e)
		l := math.Sqrt(Q)
		for k := range w.layers {
			i := e*w.layers + k
			st := &w.state[i]
			l3 := math.Exp(-st.Strain[0] - st.Strain[1])
			lam2 := math.Sqrt(math.Max(rm*rm+w.bk[i]*q, 0)) / w.rk0[i]
			now += w.vol[i] * (l / w.l0[e]) * lam2 * l3
			was += w.vol[i]
		}
	}
	b.MassError = now/was - 1
	b.AirError = s.closure
	b.AirStart, b.AirIn = s.airStart, s.airIn
	b.AirMassError = (s.gasMass - s.airStart - s.airIn) / s.gasMass
	h := &s.heat
	b.HeatStart, b.HeatEnd = h.start, s.content()
	b.HeatWork, b.HeatCrystal = h.work, h.fusion
	b.HeatToMould, b.HeatToAir, b.HeatToOutside, b.HeatToRod = h.toMould, h.toInside, h.toOutside, h.toRod
	scale := h.start - was*w.rho*resin.HeatContent(293.15)
	b.HeatError = (b.HeatEnd - (h.start + h.work + h.fusion - h.toMould - h.toInside - h.toOutside - h.toRod)) / scale
}
