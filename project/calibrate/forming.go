package calibrate

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"

	"costrel/num/fit"
	"costrel/project/design"
	"costrel/project/run"
)

// WallData is what the laboratory measured of the blown wall: section weights,
// wall readings, or both. Means over the bottles of the sample.
type WallData struct {
	Shoulder, Panel, Base Reading // section weights [kg], shoulder with the finish; zero values: not weighed
	Levels                []Level
}

// Reading is a mean with the standard deviation of single bottles.
type Reading struct {
	Mean, SD float64
	N        int
}

// Level is the wall at a height, the mean round the axis.
type Level struct {
	Z, Wall float64 // m
	SD      float64 // of the reading [m]; 0 takes 4 % of the wall
}

// Knob is one number of the process that the fit may turn.
type Knob struct {
	Path      string // in the design
	Label     string
	Low, High float64 // SI
	Log       bool    // turned by its logarithm
}

// FormingKnobs returns the numbers that a forming calibration turns, the one
// that a process card leaves most open first: tilt, bow and level of the
// preform temperature, flow of the pre-blow, contact heat.
func FormingKnobs() []Knob {
	return []Knob{
		{Path: "oven.tilt", Label: "Tilt of the preform temperature", Low: -28, High: 28},
		{Path: "oven.bow", Label: "Bow of the preform temperature", Low: -12, High: 12},
		{Path: "oven.mean_temperature", Label: "Level of the preform temperature", Low: 368.15, High: 388.15},
		{Path: "blow.pre_orifice", Label: "Flow of the pre-blow", Low: 3e-6, High: 80e-6, Log: true},
		{Path: "blow.contact", Label: "Contact heat", Low: 150, High: 1500, Log: true},
	}
}

// Fitted is one knob after the fit.
type Fitted struct {
	Knob
	Before, After float64
	SD            float64 // of After, from data and model scatter [SI]; 0 when not identified
	Identified    bool
	Why           string // where it was not
}

// Compared is one measured number before and after the fit.
type Compared struct {
	Label                   string
	Measured, Before, After float64 // SI
	Section                 bool    // a weight [kg]; otherwise a wall [m]
}

// Forming is the answer of a forming calibration.
type Forming struct {
	Knobs    []Fitted
	Data     []Compared
	RMSAfter float64 // of the residuals over their standard deviations
	RMSFirst float64
	Runs     int // blows that were run
}

// scatter of a computed section weight and wall that no knob takes away: the
// fit must not chase it. Chosen for this project.
const (
	sectionScatter = 0.10e-3 // kg
	wallScatter    = 0.05    // of the wall
)

// turns are the shares of its range by which a knob is turned to see what it
// does, one search after the other: wide ones see over what the steps of a blow
// leave, narrow ones find the place. Chosen for this project.
var turns = [...]float64{0.1, 0.03, 0.01}

// settle ends the search: the steps in time of a blow leave noise above it.
const settle = 1e-3

// openShare of its range is more than a standard deviation of a knob may be.
const openShare = 0.3

// FitForming turns the knobs until the blown wall of the design comes as near
// as it can to the data, within bounds. progress, which may be nil, is told the
// number of blows run. The design is not changed; set the knobs with Apply.
//
// A knob that the data do not see or do not tell apart from the others is
// reported and left as it was. One that ends on a bound stays there and is
// reported as not identified.
func FitForming(ctx context.Context, d *design.Design, data WallData, knobs []Knob, progress func(runs int)) (*Forming, error) {
	m, err := newWallModel(ctx, d, data, progress)
	if err != nil {
		return nil, err
	}
	before := make([]float64, m.n)
	if err := m.residual(m.design(nil, nil), before); err != nil {
		return nil, fmt.Errorf("calibrate: the design as it stands cannot be blown: %w", err)
	}
	out := &Forming{RMSFirst: rms(before)}
	valuesBefore := m.last
	free := append([]Knob(nil), knobs...)
	held := map[string]string{}
	if free, err = m.seen(free, held); err != nil {
		return nil, err
	}
	var best fit.Result
	for {
		if len(free) == 0 {
			return nil, errors.New("calibrate: no knob is told apart by these data; measure more sections or levels")
		}
		if len(free) > m.n {
			last := free[len(free)-1]
			held[last.Path] = fmt.Sprintf("%d independent numbers measured leave nothing for it", m.n)
			free = free[:len(free)-1]
			continue
		}
		p := fit.Problem{Residuals: m.n, Start: make([]float64, len(free)), Low: make([]float64, len(free)), High: make([]float64, len(free)), Step: make([]float64, len(free)), Settle: settle, OneSided: true}
		for i, k := range free {
			v, _, ok := d.Number(k.Path)
			if !ok {
				return nil, fmt.Errorf("calibrate: the design has no number at %s", k.Path)
			}
			p.Low[i], p.High[i] = k.to(k.Low), k.to(k.High)
			p.Start[i] = math.Min(math.Max(k.to(v), p.Low[i]), p.High[i])
		}
		p.Residual = func(x, r []float64) error {
			err := m.trial(free, x, r)
			if err == nil || ctx.Err() != nil {
				return err
			}
			// far worse than the start, so that the search turns back
			for i := range r {
				r[i] = 3*before[i] + math.Copysign(10, before[i])
			}
			return nil
		}
		best, err = inTurns(p)
		if err == nil {
			break
		}
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		// The last knob is the least certain of the list: leave it out.
		last := free[len(free)-1]
		held[last.Path] = "the data do not tell it apart from the others: " + err.Error()
		if m.failed != nil {
			held[last.Path] += "; a trial blow of the search had failed at " + m.failed.Error()
			m.failed = nil
		}
		free = free[:len(free)-1]
	}
	after := make([]float64, m.n)
	if err = m.residual(m.design(free, best.X), after); err != nil {
		return nil, err
	}
	out.RMSAfter, out.Runs = rms(after), m.runs
	scale := 1.0
	if best.Freedom > 0 {
		scale = math.Max(1, math.Sqrt(best.SumSquares/float64(best.Freedom)))
	}
	for _, k := range knobs {
		v, _, _ := d.Number(k.Path)
		f := Fitted{Knob: k, Before: v, After: v}
		if why, ok := held[k.Path]; ok {
			f.Why = why
			out.Knobs = append(out.Knobs, f)
			continue
		}
		for i, q := range free {
			if q.Path != k.Path {
				continue
			}
			f.After = k.from(best.X[i])
			sd := math.Sqrt(math.Max(best.Inverse[i][i], 0)) * scale
			width := k.to(k.High) - k.to(k.Low)
			switch {
			case best.Bound[i]:
				f.Why = "it ends on its bound; the bound set it, not the data"
			case sd > openShare*width:
				f.Why = "the data leave it open over most of its range"
			default:
				f.Identified = true
			}
			f.SD = sd
			if k.Log {
				f.SD = sd * f.After
			}
		}
		out.Knobs = append(out.Knobs, f)
	}
	for i, label := range m.labels {
		out.Data = append(out.Data, Compared{Label: label, Measured: m.measured[i], Before: valuesBefore[i], After: m.last[i], Section: i < m.sections})
	}
	return out, nil
}

// inTurns runs the search with each turn, from where the last one ended.
func inTurns(p fit.Problem) (best fit.Result, err error) {
	for _, turn := range turns {
		for i := range p.Step {
			p.Step[i] = turn * (p.High[i] - p.Low[i])
		}
		if best, err = fit.LeastSquares(p); err != nil {
			return best, err
		}
		p.Start = best.X
	}
	return best, nil
}

// Apply sets the fitted knobs in a design.
func (f *Forming) Apply(d *design.Design) {
	for _, k := range f.Knobs {
		d.SetNumber(k.Path, k.After)
	}
}

func (k Knob) to(v float64) float64 {
	if k.Log {
		return math.Log(v)
	}
	return v
}

func (k Knob) from(x float64) float64 {
	if k.Log {
		return math.Exp(x)
	}
	return x
}

func rms(r []float64) float64 {
	s := 0.0
	for _, v := range r {
		s += v * v
	}
	return math.Sqrt(s / float64(len(r)))
}

// wallModel computes the measured numbers from a design.
type wallModel struct {
	ctx      context.Context
	base     *design.Design
	data     WallData
	cache    *run.Cache
	progress func(int)
	runs     int

	n        int // residuals
	sections int // of them section weights
	labels   []string
	measured []float64
	sd       []float64
	last     []float64 // as last computed
	failed   error     // the trial blow that failed last, nil when none did
}

func newWallModel(ctx context.Context, d *design.Design, data WallData, progress func(int)) (*wallModel, error) {
	m := &wallModel{ctx: ctx, base: d, data: data, cache: run.NewCache(64), progress: progress}
	add := func(label string, v, sd float64) {
		m.labels, m.measured, m.sd = append(m.labels, label), append(m.measured, v), append(m.sd, sd)
	}
	for _, s := range []struct {
		label string
		r     Reading
	}{{"base section", data.Base}, {"panel section", data.Panel}, {"shoulder section with finish", data.Shoulder}} {
		if s.r.Mean == 0 {
			continue
		}
		if !(s.r.Mean > 0 && s.r.Mean < 1) || s.r.SD < 0 {
			return nil, fmt.Errorf("calibrate: %s: mean %g kg, standard deviation %g kg", s.label, s.r.Mean, s.r.SD)
		}
		n := math.Max(1, float64(s.r.N))
		add(s.label, s.r.Mean, math.Hypot(s.r.SD/math.Sqrt(n), sectionScatter))
	}
	m.sections = len(m.labels)
	for i, l := range data.Levels {
		if !(l.Wall > 0 && l.Wall < 0.02) || math.IsNaN(l.Z) {
			return nil, fmt.Errorf("calibrate: level %d: wall %g m at z = %g m", i+1, l.Wall, l.Z)
		}
		sd := l.SD
		if sd == 0 {
			sd = 0.04 * l.Wall
		}
		add(fmt.Sprintf("wall at %.0f mm", l.Z*1e3), l.Wall, math.Hypot(sd, wallScatter*l.Wall))
	}
	m.n = len(m.labels)
	if m.n == 0 {
		return nil, errors.New("calibrate: no section weight and no wall reading")
	}
	return m, nil
}

// seen returns the knobs that the data see: turned alone by a tenth of its
// range, one must move the residuals so far that they would fix it within
// openShare of the range. The others are entered in held.
func (m *wallModel) seen(knobs []Knob, held map[string]string) ([]Knob, error) {
	var out []Knob
	low, high := make([]float64, m.n), make([]float64, m.n)
	for _, k := range knobs {
		v, _, ok := m.base.Number(k.Path)
		if !ok {
			return nil, fmt.Errorf("calibrate: the design has no number at %s", k.Path)
		}
		from, to := k.to(k.Low), k.to(k.High)
		x := math.Min(math.Max(k.to(v), from), to)
		a, b := math.Max(x-0.05*(to-from), from), math.Min(x+0.05*(to-from), to)
		one := []Knob{k}
		if err := errors.Join(m.trial(one, []float64{a}, low), m.trial(one, []float64{b}, high)); err != nil {
			if m.ctx.Err() != nil || m.failed == nil {
				return nil, err
			}
			held[k.Path] = "left as it was, because a trial blow failed at " + m.failed.Error()
			m.failed = nil
			continue
		}
		change := 0.0
		for i := range low {
			change += (high[i] - low[i]) * (high[i] - low[i])
		}
		if math.Sqrt(change)*openShare*(to-from) < b-a {
			held[k.Path] = "turning it hardly changes what was measured"
			continue
		}
		out = append(out, k)
	}
	return out, nil
}

// trial is the residual with the knobs turned; a blow that fails is noted with
// where they stood.
func (m *wallModel) trial(knobs []Knob, x, r []float64) error {
	err := m.residual(m.design(knobs, x), r)
	if err == nil || m.ctx.Err() != nil {
		return err
	}
	var at []string
	for i, k := range knobs {
		at = append(at, fmt.Sprintf("%s = %.4g", k.Path, k.from(x[i])))
	}
	m.failed = fmt.Errorf("%s (SI): %w", strings.Join(at, ", "), err)
	return err
}

// design returns the design with the knobs turned.
func (m *wallModel) design(knobs []Knob, x []float64) *design.Design {
	d := m.base.Clone()
	for i, k := range knobs {
		d.SetNumber(k.Path, k.from(x[i]))
	}
	// Inside and outside of the card move with its mean.
	shift := d.Oven.Mean - m.base.Oven.Mean
	d.Oven.Inside += shift
	d.Oven.Outside += shift
	return d
}

func (m *wallModel) residual(d *design.Design, r []float64) error {
	w, shape, err := run.BlownWall(m.ctx, d, m.cache)
	if err != nil {
		return err
	}
	m.runs++
	if m.progress != nil {
		m.progress(m.runs)
	}
	values := make([]float64, 0, m.n)
	weights := map[string]float64{}
	for _, z := range w.Zones {
		weights[z.Name] = z.Grams * 1e-3
	}
	for _, label := range m.labels[:m.sections] {
		switch label {
		case "base section":
			values = append(values, weights["base"])
		case "panel section":
			values = append(values, weights["panel"])
		default:
			values = append(values, weights["shoulder"])
		}
	}
	for _, l := range m.data.Levels {
		values = append(values, w.RealAt(shape.Bottle.CutS(l.Z)))
	}
	for i := range values {
		r[i] = (values[i] - m.measured[i]) / m.sd[i]
	}
	m.last = values
	return nil
}
