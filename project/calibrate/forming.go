package calibrate

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
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
	Notes                 []string // what the tables themselves leave to tell
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
// that a process card leaves most open first: tilt, bow and skew of the preform
// temperature, friction (0.2 to 0.4 is common practice), level of the temperature,
// flow of the pre-blow, contact heat. Friction is left alone where the wall sticks.
func FormingKnobs() []Knob {
	return []Knob{
		{Path: "oven.tilt", Label: "Tilt of the preform temperature", Low: -28, High: 28},
		{Path: "oven.bow", Label: "Bow of the preform temperature", Low: -12, High: 12},
		{Path: "oven.skew", Label: "Skew of the preform temperature", Low: -10, High: 10},
		{Path: "blow.friction", Label: "Friction on the mould", Low: 0.1, High: 0.5},
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
	Runs     int      // blows that were run
	Notes    []string // what to beware of in the data
	// What the fit has left, root mean squares with the scatter of what was
	// measured: of the panel, relative, 0 with fewer than three heights read there;
	// of the section weights [kg], 0 where not all three were weighed. Mass is that
	// of the preform.
	Panel, Weight, Mass float64
}

// scatter of a computed section weight and wall that no knob takes away: the
// fit must not chase it. Chosen for this project.
const (
	sectionScatter = 0.10e-3 // kg
	wallScatter    = 0.03    // of the wall
)

// turns are the shares of its range by which a knob is turned to see what it
// does, one search with coarse blows after the other: wide ones see over what the
// steps of a blow leave, narrow ones find the place. lastTurn is that with whole
// blows. Chosen for this project.
var turns, lastTurn = []float64{0.1, 0.03}, []float64{0.02}

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
	if out.Notes, err = m.sameBottle(); err != nil {
		return nil, err
	}
	if out.Notes, err = m.contradictions(append(slices.Clip(data.Notes), out.Notes...), before); err != nil {
		return nil, err
	}
	out.RMSFirst = rms(before)
	valuesBefore := m.last
	free := slices.DeleteFunc(slices.Clone(knobs), func(k Knob) bool { return k.Path == "blow.friction" && d.Blow.Friction == 0 })
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
		best, err = m.search(p, free)
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
		if k.Path == "blow.friction" && d.Blow.Friction == 0 {
			f.Why = "left as it was: the wall sticks at first touch"
			out.Knobs = append(out.Knobs, f)
			continue
		}
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
	out.Panel, out.Weight, out.Mass = m.panelLeft(), m.weightLeft(), m.mass
	for i, label := range m.labels {
		out.Data = append(out.Data, Compared{Label: label, Measured: m.measured[i], Before: valuesBefore[i], After: m.last[i], Section: i < m.sections})
	}
	return out, nil
}

// search looks with coarse blows from several starts, since the steps in time of a
// blow make many small valleys, and then with whole blows from the best of them.
func (m *wallModel) search(p fit.Problem, free []Knob) (best fit.Result, err error) {
	if m.offset == nil {
		if err := m.offsets(); err != nil {
			return best, err
		}
	}
	m.quick = true
	least := math.Inf(1)
	for _, start := range m.starts(p, free) {
		q := p
		q.Start = start
		r, err := inTurns(q, turns)
		if m.ctx.Err() != nil {
			break
		}
		if err == nil && r.SumSquares < least {
			least, p.Start = r.SumSquares, r.X
		}
	}
	m.quick = false
	if err := m.ctx.Err(); err != nil {
		return best, err
	}
	return inTurns(p, lastTurn)
}

// starts are where a search begins: where the design stands, and the first knob
// in its lower half with the other temperatures in the middle of their ranges.
func (m *wallModel) starts(p fit.Problem, free []Knob) [][]float64 {
	out := [][]float64{p.Start}
	x := slices.Clone(p.Start)
	for i, k := range free {
		switch {
		case i == 0:
			x[i] = p.Low[i] + 0.3*(p.High[i]-p.Low[i])
		case strings.HasPrefix(k.Path, "oven."):
			x[i] = (p.Low[i] + p.High[i]) / 2
		}
	}
	return append(out, x)
}

// inTurns runs the search with each turn, from where the last one ended.
func inTurns(p fit.Problem, turns []float64) (best fit.Result, err error) {
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
	mean := d.Oven.Mean
	for _, k := range f.Knobs {
		d.SetNumber(k.Path, k.After)
	}
	// Inside and outside of the card move with its mean.
	d.Oven.Inside += d.Oven.Mean - mean
	d.Oven.Outside += d.Oven.Mean - mean
	d.Blow.Residual, d.Blow.WeightLeft, d.Blow.FitMass = f.Panel, f.Weight, f.Mass
	d.Blow.FitAt = run.FitPlace(d)
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
