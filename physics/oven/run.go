package oven

import (
	"fmt"
	"math"

	"costrel/num/conduct"
	"costrel/physics/preform"
	"costrel/physics/resin"
	"costrel/unit"
)

// Oven is a preform in front of a set of lamps: what does not change with
// power is computed once. It is immutable and may be used by several
// goroutines.
type Oven struct {
	setup   Setup
	grade   resin.Grade
	slices  []Slice
	walls   []*conduct.Wall
	area    []float64 // of the mid-surface [m²]
	views   [][]view  // [slice][zone]
	bands   []Band
	stuff   conduct.Stuff
	crystal resin.Quiescent
	rate    resin.RateTable
	inside  float64   // reflectance of a face from within
	total   []float64 // volume of the walls over their mid-surface [m]
	axial   []float64 // conductance between slice i and i+1 [W/K]
}

// New checks the set-up, every fault reported, and computes mesh and view
// factors.
func New(p *preform.Preform, g resin.Grade, s Setup) (*Oven, error) {
	if err := s.check(); err != nil {
		return nil, err
	}
	slices, err := Slices(p, s.Grid.Slices)
	if err != nil {
		return nil, err
	}
	index, err := resin.RefractiveIndex(2e-6)
	if err != nil {
		return nil, err
	}
	o := &Oven{setup: s, grade: g, slices: slices, bands: Bands()}
	o.setup.Zones = append([]float64(nil), s.Zones...)
	if o.inside, err = resin.Reflectance(index); err != nil {
		return nil, err
	}
	if o.stuff, err = stuff(g, p.Spec().Density); err != nil {
		return nil, err
	}
	if o.crystal, err = resin.NewQuiescent(g); err != nil {
		return nil, err
	}
	o.rate = o.crystal.Table()
	for i := range slices {
		f := slices[i].facet
		if d := s.Lamps.Distance; f.r >= 0.9*d {
			return nil, fmt.Errorf("oven: preform radius ‹%.4g mm› at ‹%.4g mm› below the ledge reaches the filaments at ‹%.4g mm› from the axis: move the lamps out", f.r*1e3, slices[i].BelowLedge*1e3, d*1e3)
		}
		w, a, err := slices[i].mesh(s.Grid.Cells, p.Spec().Density)
		if err != nil {
			return nil, err
		}
		floor := s.Lamps.First + float64(len(s.Zones)-1)*s.Lamps.Pitch + s.Lamps.Floor
		v := make([]view, len(s.Zones))
		for z := range v {
			v[z] = o.setup.Lamps.view(f, s.Lamps.First+float64(z)*s.Lamps.Pitch, floor, index)
		}
		o.walls, o.area, o.views = append(o.walls, w), append(o.area, a), append(o.views, v)
	}
	for i := range slices {
		o.total = append(o.total, o.walls[i].Total())
		if i+1 == len(slices) {
			break
		}
		// the ring of wall where they meet; the smaller where the wall steps
		at, e := slices[i].To, 1e-6*p.ArcLength()
		section := math.Min(p.At(at-e).Rate, p.At(at+e).Rate) / p.Spec().Density
		o.axial = append(o.axial, g.Conductivity*section/(slices[i+1].S-slices[i].S))
	}
	return o, nil
}

// stuff tabulates the enthalpy of amorphous PET every kelvin, 250 to 600 K.
func stuff(g resin.Grade, density float64) (conduct.Stuff, error) {
	const low, high = 250, 600
	law := make([]float64, 0, high-low+1)
	for T := low; T <= high; T++ {
		h, _, err := resin.Enthalpy(unit.Temperature(low), unit.Temperature(T))
		if err != nil {
			return conduct.Stuff{}, err
		}
		law = append(law, h)
	}
	return conduct.Tabulated(density, g.Conductivity, low, 1, law)
}

// Zone is one lamp zone as it ran.
type Zone struct {
	BelowLedge float64          // m
	Load       float64          // power over rated power
	Power      float64          // W, one lamp
	Filament   unit.Temperature // 0 when off
	Absorbed   float64          // heat into the preform [J]
}

// Energy is where the heat of one preform came from and went [J]. What falls
// is reflected, escapes or is absorbed; what is absorbed is stored or lost.
type Energy struct {
	Electric                             float64 // of the lamps, for one preform
	Falls, Reflected, Escaped, Absorbed  float64
	LostConvection, LostRadiation, Inner float64 // from the outer face to air, to surroundings; from the inner face
	Stored                               float64
	Residual                             float64 // absorbed - lost - stored, over absorbed
	Needed                               float64 // heat from the inlet to the mean temperature of each slice by the resin's enthalpy
}

// Efficiency returns the heat stored over the electricity of the lamps.
func (e Energy) Efficiency() float64 {
	if e.Electric <= 0 {
		return 0
	}
	return e.Stored / e.Electric
}

// History is the temperature over time of one slice [K].
type History struct {
	BelowLedge                  float64 // m
	Time, Inside, Mean, Outside []float64
}

// Result is the preform at blow.
type Result struct {
	Slices   []Slice
	Field    *Field
	Mean     unit.Temperature // over the mass below the ledge
	Hottest  []float64        // hottest the outer face has been, one a slice [K]
	Haze     []float64        // largest relative crystallisation through the wall, one a slice
	Zones    []Zone
	Energy   Energy
	Body     History // of the slice in the middle of the body
	Level    float64
	Coupling float64
	Warnings []string
}

// Run heats the preform as set and judges the result. Beside warnings it
// refuses, with a [Refusal], a preform that melts or is left cold.
func (o *Oven) Run() (*Result, error) {
	r, err := o.solve(o.setup.Level, o.setup.Coupling)
	if err != nil {
		return nil, err
	}
	if err := o.judge(r); err != nil {
		return nil, err
	}
	return r, nil
}

// newField returns a field without values.
func newField(slices []Slice, cells int) *Field {
	n := len(slices)
	buf := make([]float64, n*(5+2*cells))
	cut := func(m int) []float64 { v := buf[:m:m]; buf = buf[m:]; return v }
	f := &Field{S: cut(n), Inside: cut(n), Mean: cut(n), Outside: cut(n), Mass: cut(n), T: make([][]float64, n), Volume: make([][]float64, n)}
	for i := range slices {
		f.S[i], f.Mass[i] = slices[i].S, slices[i].Mass
		f.T[i], f.Volume[i] = cut(cells), cut(cells)
	}
	return f
}

// shape takes edges and volumes from the mesh of slice i; the edges are the
// same in every slice, the mesh being graded by shares of the wall.
func (f *Field) shape(i int, w *conduct.Wall) {
	if f.Edge == nil {
		for _, x := range w.Face {
			f.Edge = append(f.Edge, x/w.Thickness)
		}
	}
	total := w.Total()
	for k, v := range w.Volume {
		f.Volume[i][k] = v / total
	}
}

// ring is one slice while it is stepped.
type ring struct {
	*conduct.Solver
	light         []float64 // heat of the lamps to the cells [W/m² of mid-surface]
	axial, before []float64 // heat along the preform, now and a piece ago
	theta         []float64 // integral of the crystallisation rate
	peak, started float64
}

// solve runs the schedule at a level and a coupling.
func (o *Oven) solve(level, coupling float64) (*Result, error) {
	s := o.setup
	s.Level, s.Coupling = level, coupling
	n, cells := len(o.slices), s.Grid.Cells
	r := &Result{
		Slices: o.slices, Field: newField(o.slices, cells), Level: level, Coupling: coupling,
		Hottest: make([]float64, n), Haze: make([]float64, n), Zones: make([]Zone, len(s.Zones)),
	}
	spectra := make([]Spectrum, len(s.Zones))
	lampTime := s.LampTime()
	for z := range r.Zones {
		q := Zone{BelowLedge: s.Lamps.First + float64(z)*s.Lamps.Pitch, Load: s.Load(z)}
		q.Power = q.Load * s.Lamps.Power
		r.Energy.Electric += q.Power * lampTime * s.ChainPitch / s.Lamps.Length
		if q.Load > 0 {
			t := math.Max(200, float64(s.Lamps.FilamentAt(q.Load)))
			if t > 3600 {
				return nil, fmt.Errorf("oven: filament of zone %d at %.0f K above 3600 K: tungsten melts; lower the power", z+1, t)
			}
			q.Filament = unit.Temperature(t)
			spectra[z] = lampSpectrum(o.bands, t, float64(s.Lamps.Tube), s.Lamps.Cutoff)
		}
		r.Zones[z] = q
	}

	middle := o.middle()
	rings := make([]ring, n)
	buf := make([]float64, 5*n*cells)
	cut := func() []float64 { v := buf[:cells:cells]; buf = buf[cells:]; return v }
	for i := range rings {
		q := &rings[i]
		*q = ring{Solver: conduct.NewSolver(o.walls[i], &o.stuff, float64(s.Inlet)), light: cut(), axial: cut(), before: cut(), theta: cut(), peak: float64(s.Inlet)}
		q.Source = cut()
		q.Inner = conduct.Side{Film: s.Air.Inside, Fluid: float64(s.Air.Bore)}
		q.started = q.Heat()
		q.After = func(dt float64) {
			for k, T := range q.T {
				if T > 365 {
					q.theta[k] += o.rate.Rate(T) * dt
				}
			}
			q.peak = math.Max(q.peak, q.TO)
		}
		e := o.light(&s, spectra, i, q.light, r, lampTime)
		r.Energy.Falls += e.Falls
		r.Energy.Reflected += e.Reflected
		r.Energy.Escaped += e.Escaped
		r.Energy.Absorbed += e.Absorbed
	}
	module := lampTime / float64(s.Modules)
	pieces := func(span float64) int { return int(math.Ceil(span/(2*s.Grid.Step) - 1e-9)) } // of two steps
	notes := 1 + s.Modules*pieces(module) + (s.Modules-1)*pieces(s.GapTime) + pieces(s.SoakTime)
	r.Body = History{Time: make([]float64, 0, notes), Inside: make([]float64, 0, notes), Mean: make([]float64, 0, notes), Outside: make([]float64, 0, notes)}
	now := 0.0
	note := func() {
		q := &rings[middle]
		q.Refresh()
		h := &r.Body
		h.Time, h.Inside = append(h.Time, now), append(h.Inside, q.TI)
		h.Mean, h.Outside = append(h.Mean, q.Wall.Mean(q.T)), append(h.Outside, q.TO)
	}
	note()
	heating := conduct.Side{Film: s.Air.FilmAt(s.Ventilation), Fluid: float64(s.Air.Oven), Emissivity: o.grade.Emissivity, Surrounding: float64(s.Air.Surroundings)}
	soaking := conduct.Side{Film: s.Air.SoakFilm, Fluid: float64(s.Air.Soak), Emissivity: o.grade.Emissivity, Surrounding: float64(s.Air.Soak)}
	phase := func(span float64, lit bool, side conduct.Side) error {
		if span <= 0 {
			return nil
		}
		n := pieces(span)
		dt := span / float64(n)
		for piece := range n {
			o.along(rings)
			fresh := 0.5 // extrapolated to the middle of the piece
			if now == 0 {
				fresh = 0
			}
			for i := range rings {
				q := &rings[i]
				q.Outer = side
				for k := range q.Source {
					q.Source[k] = q.axial[k] + fresh*(q.axial[k]-q.before[k])
					if lit {
						q.Source[k] += q.light[k]
					}
				}
				var err error
				if piece == 0 {
					err = q.Run(dt, 2)
				} else {
					err = q.Continue(dt, 2)
				}
				if err != nil {
					return fmt.Errorf("oven: slice at ‹%.4g mm› below the ledge, %.3g s: %w", o.slices[i].BelowLedge*1e3, now, err)
				}
			}
			now += dt
			note()
		}
		return nil
	}
	for m := range s.Modules {
		if err := phase(module, true, heating); err != nil {
			return nil, err
		}
		if m+1 < s.Modules {
			if err := phase(s.GapTime, false, heating); err != nil {
				return nil, err
			}
		}
	}
	if err := phase(s.SoakTime, false, soaking); err != nil {
		return nil, err
	}
	f := r.Field
	for i := range rings {
		q, wall, a := &rings[i], o.walls[i], o.area[i]
		q.Refresh()
		f.shape(i, wall)
		copy(f.T[i], q.T)
		f.Inside[i], f.Mean[i], f.Outside[i] = q.TI, wall.Mean(q.T), q.TO
		worst := 0.0
		for _, th := range q.theta {
			worst = math.Max(worst, th)
		}
		r.Haze[i], r.Hottest[i] = o.crystal.Relative(worst), q.peak
		r.Energy.LostConvection += a * q.Lost.OuterFilm
		r.Energy.LostRadiation += a * q.Lost.OuterRadiation
		r.Energy.Inner += a * (q.Lost.InnerFilm + q.Lost.InnerRadiation)
		r.Energy.Stored += a * (q.Heat() - q.started)
		r.Energy.Needed += o.slices[i].Mass * (o.stuff.Enthalpy(f.Mean[i]) - o.stuff.Enthalpy(float64(s.Inlet)))
		for _, x := range [...]float64{q.TI, q.TO, q.peak, f.Mean[i]} {
			if !finite(x) {
				return nil, fmt.Errorf("oven: slice at ‹%.4g mm› below the ledge: temperature %g K", o.slices[i].BelowLedge*1e3, x)
			}
		}
	}
	r.Mean = r.Field.Average()
	r.Body.BelowLedge = o.slices[middle].BelowLedge
	if e := &r.Energy; e.Absorbed > 0 {
		e.Residual = (e.Absorbed - e.LostConvection - e.LostRadiation - e.Inner - e.Stored) / e.Absorbed
	}
	return r, nil
}

// along, called once a piece, renews the heat that flows along the preform into the cells, between
// cells of the same share of the wall; insulated at gate and ledge.
func (o *Oven) along(rings []ring) {
	for i := range rings {
		q := &rings[i]
		q.before, q.axial = q.axial, q.before
		clear(q.axial)
	}
	for i := 0; i+1 < len(rings); i++ {
		a, b := &rings[i], &rings[i+1]
		for k := range a.axial {
			flow := o.axial[i] * (o.walls[i].Volume[k]/o.total[i] + o.walls[i+1].Volume[k]/o.total[i+1]) / 2 * (b.T[k] - a.T[k])
			a.axial[k] += flow / o.area[i]
			b.axial[k] -= flow / o.area[i+1]
		}
	}
}

// middle returns the slice in the middle of the body.
func (o *Oven) middle() int {
	first, last := -1, 0
	for i, s := range o.slices {
		if s.Part == Body {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	return (first + last) / 2
}

// light writes the heat that the lamps give to the cells of slice i [W/m² of
// mid-surface] and returns its energy over the lamp time [J].
func (o *Oven) light(s *Setup, spectra []Spectrum, i int, source []float64, r *Result, time float64) Energy {
	clear(source)
	var entered Spectrum
	var e Energy
	wall, area := o.walls[i], o.area[i]
	outer := wall.Area[len(wall.Area)-1]
	for z := range spectra {
		p := r.Zones[z].Power * s.Lamps.Radiant * s.Coupling
		if p <= 0 {
			continue
		}
		var own Spectrum
		v := o.views[i][z]
		for b, share := range spectra[z] {
			own[b] = p * share * v.enters * outer
			entered[b] += own[b]
		}
		e.Falls += p * v.falls * outer
		e.Reflected += p * (v.falls - v.enters) * outer
		r.Zones[z].Absorbed += area * time * o.taken(wall.Thickness, own, s.Optics)
	}
	l := absorb(o.bands, wall, entered, o.inside, s.Optics, source)
	e.Falls *= area * time
	e.Reflected *= area * time
	e.Escaped, e.Absorbed = area*time*l.escaped, area*time*l.absorbed
	return e
}

// taken returns what the wall absorbs of light that entered, as absorb does.
func (o *Oven) taken(h float64, entered Spectrum, opt Optics) float64 {
	sum := 0.0
	for b, p := range entered {
		t := math.Exp(-o.bands[b].Absorption * h)
		if opt.Bore {
			sum += p * (1 - t*t) / (1 - o.inside*t*t)
		} else {
			sum += p * (1 - t)
		}
	}
	return sum
}
