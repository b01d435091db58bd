package calibrate

import (
	"errors"
	"fmt"
	"math"

	"costrel/num/dist"
	"costrel/num/fit"
	"costrel/physics/climate"
	"costrel/physics/permeation"
)

const (
	day  = 86400.0
	week = 7 * day
)

// Free says which numbers the fit may move besides the carbonation at the
// start and the factor on the wall. Each is bound by a prior, the spread that
// the card of the model gives it: pulls alone do not tell closure from wall.
type Free struct {
	Closure bool // conductance, times or over 1.6
	Growth  bool // elastic and delayed, times or over 1.5
}

// Growth and closure: half widths of ln at 95 %. Chosen for this project.
const (
	closureSpread = 1.6
	growthSpread  = 1.5
)

// Setup is a fit of pulls.
type Setup struct {
	// Case is the pack with its lane; the lane reaches past the last pull and
	// past every time that is asked for later.
	Case  permeation.Case
	Pulls []Pull
	Free  Free
	// Sigma is the standard deviation of one reading [kg/m³] that stands where the
	// readings are too few to tell theirs; 0 takes the usual one.
	Sigma float64
}

// Parameter is one fitted number with its 95 % interval.
type Parameter struct {
	Key, Label    string
	Value, Lo, Hi float64
	AtBound       bool // the bound has set it, not the data
	Prior         bool // held by a prior as well
}

// PullFit is the result of a fit.
type PullFit struct {
	// Parameters: "factor" on the diffusivity of the wall, "start" the
	// carbonation at filling [kg/m³], then "closure" and "growth" where free.
	Parameters []Parameter
	// Sigma is the scatter of one bottle about the curve [kg/m³], with Freedom
	// degrees of freedom; Bottles that of bottles of one pull about their mean,
	// 0 where no pull has two.
	Sigma   float64
	Freedom int
	Bottles float64
	// Assumed is the scatter of one bottle that the intervals count with where the
	// readings are too few or agree too well to tell theirs [kg/m³]; 0 where they
	// count with Sigma.
	Assumed float64
	// Misfit is the chance of so bad a curve if the model were right: the pulls
	// about the curve against the bottles about their pulls. Below 0.05 the
	// curve does not follow the data; NaN where no test is possible, and Untested
	// says why.
	Misfit    float64
	Untested  string
	Residuals []float64 // readings less curve, in the order of the pulls [kg/m³]
	// Outliers are the readings that lie farther from the curve than the others
	// let expect. They count in the fit like all.
	Outliers []Outlier
	Warnings []string
	// Refused says why nothing may be concluded from the fit: a number on its
	// bound, or a curve that does not follow the pulls. Empty for a sound fit.
	// Otherwise no interval is given: each reaches over all that there can be.
	Refused string

	s     Setup
	x     []float64
	cov   [][]float64
	info  [][]float64 // JᵀJ at x, residuals over Sigma
	kinds []string
	prior []float64
	last  float64
	sigma float64          // of a reading, that the intervals count with [kg/m³]
	df    float64          // degrees of freedom behind it
	far   bool             // the readings lie farther from the curve than any bottles scatter
	along *permeation.Case // where predictions do not run as the pulls were kept
}

// step of the differences of the parameters, all of which are logarithms.
const step = 0.01

// FitPulls fits the transient model to pulls: the carbonation at the start and
// the factor on the diffusivity of the wall, and what Free sets free, by least
// squares over all readings. Growth, sorption and closure stay as the case has
// them otherwise.
//
// Errors: faulty pulls; a lane that ends before the last pull; a drink that is
// not carbonated; no convergence.
func FitPulls(s Setup) (*PullFit, error) {
	if err := checkPulls(s.Pulls); err != nil {
		return nil, err
	}
	c := s.Case.Liquid.Drink().Carbonation
	if !(c > 0) {
		return nil, errors.New("calibrate: pulls: the drink of the pack is not carbonated")
	}
	if !passes(s.Case.Zones) {
		return nil, errors.New("calibrate: pulls: the wall of the design passes and takes up nothing, so that pulls tell nothing of it: set shelf.material to that of the bottles that were pulled")
	}
	f := &PullFit{s: s, kinds: []string{"factor", "start"}, prior: []float64{0, 0}}
	if s.Free.Closure {
		f.kinds, f.prior = append(f.kinds, "closure"), append(f.prior, math.Log(closureSpread)/two95)
	}
	if s.Free.Growth {
		f.kinds, f.prior = append(f.kinds, "growth"), append(f.prior, math.Log(growthSpread)/two95)
	}
	readings, times := 0, make([]float64, 0, len(s.Pulls))
	within, freedom := 0.0, 0
	for _, p := range s.Pulls {
		readings += len(p.Values)
		times = append(times, p.Time)
		m := mean(p.Values)
		for _, v := range p.Values {
			within += (v - m) * (v - m)
		}
		freedom += len(p.Values) - 1
	}
	f.last = times[len(times)-1]
	if freedom > 0 {
		f.Bottles = math.Sqrt(within / float64(freedom))
	}
	sigma := f.Bottles // until the readings about the curve tell
	if !(sigma > 0) {
		sigma = s.usual()
	}
	n := len(f.kinds)
	priors := n - 2
	low, high := make([]float64, n), make([]float64, n)
	start := make([]float64, n)
	for i := range n {
		low[i], high[i] = math.Log(0.1), math.Log(10)
	}
	// The pulls themselves tell where to start.
	start[1] = math.Log(s.Pulls[0].Values[0] / c)
	start[1] = math.Min(math.Max(start[1], low[1]), high[1])
	var r fit.Result
	for pass := range 2 {
		var err error
		r, err = fit.LeastSquares(fit.Problem{
			Residuals: readings + priors, Start: start, Low: low, High: high, Step: fill(n, step),
			Residual: func(x, r []float64) error {
				v, err := f.curve(x, times)
				if err != nil {
					return err
				}
				k := 0
				for i, p := range s.Pulls {
					for _, y := range p.Values {
						r[k] = (v[i] - y) / sigma
						k++
					}
				}
				for i := 2; i < n; i++ {
					r[k] = x[i] / f.prior[i]
					k++
				}
				return nil
			},
		})
		if err != nil {
			return nil, fmt.Errorf("calibrate: pulls: %w", err)
		}
		sum := 0.0
		for _, v := range r.Residual[:readings] {
			sum += v * v
		}
		f.Freedom = readings - 2
		if f.Freedom < 1 {
			return nil, fmt.Errorf("calibrate: pulls: %d readings leave no degree of freedom, want 3 or more", readings)
		}
		f.Sigma = sigma * math.Sqrt(sum/float64(f.Freedom))
		if pass == 0 { // now with the scatter that was found
			if err := f.weigh(); err != nil {
				return nil, err
			}
			sigma = f.sigma
			start = r.X
		}
	}
	f.x, f.cov = r.X, r.Inverse
	f.info = make([][]float64, n)
	for j := range n {
		f.info[j] = make([]float64, n)
		for k := range n {
			for i := range r.Jacobian {
				f.info[j][k] += r.Jacobian[i][j] * r.Jacobian[i][k]
			}
		}
	}
	for _, v := range r.Residual[:readings] {
		f.Residuals = append(f.Residuals, -v*sigma)
	}
	if err := f.misfit(within, freedom); err != nil {
		return nil, err
	}
	if err := f.parameters(r, c); err != nil {
		return nil, err
	}
	f.started(c)
	if err := f.suspects(); err != nil {
		return nil, err
	}
	f.refuse(math.Exp(low[0]), math.Exp(high[0]), c)
	return f, nil
}

// two95 is the score at the ends of a 95 % range.
const two95 = 1.959963984540054

func fill(n int, v float64) []float64 {
	out := make([]float64, n)
	for i := range out {
		out[i] = v
	}
	return out
}

func mean(v []float64) float64 {
	s := 0.0
	for _, x := range v {
		s += x
	}
	return s / float64(len(v))
}

// parameters reports the fitted numbers.
func (f *PullFit) parameters(r fit.Result, c float64) error {
	t, err := dist.StudentQuantile(0.975, f.df)
	if err != nil {
		return fmt.Errorf("calibrate: pulls: %w", err)
	}
	labels := map[string]string{
		"factor": "Wall: factor on diffusivity", "start": "Carbonation at filling",
		"closure": "Closure: factor on conductance", "growth": "Growth: factor",
	}
	for i, k := range f.kinds {
		unit := 1.0
		if k == "start" {
			unit = c
		}
		half := t * math.Sqrt(f.cov[i][i])
		p := Parameter{Key: k, Label: labels[k], Value: unit * math.Exp(r.X[i]), Lo: unit * math.Exp(r.X[i]-half), Hi: unit * math.Exp(r.X[i]+half), AtBound: r.Bound[i], Prior: i > 1}
		f.Parameters = append(f.Parameters, p)
	}
	return nil
}

// cased returns a case at the parameters x.
func (f *PullFit) cased(c permeation.Case, x []float64) (permeation.Case, error) {
	c, err := c.Factor(math.Exp(x[0]))
	if err != nil {
		return c, err
	}
	d := c.Liquid.Drink()
	d.Carbonation *= math.Exp(x[1])
	if c.Liquid, err = d.Liquid(); err != nil {
		return c, err
	}
	for i, k := range f.kinds {
		m := math.Exp(x[i])
		switch k {
		case "closure":
			c.Cap.CO2 *= m
			c.Cap.Oxygen *= m
			c.Cap.Nitrogen *= m
		case "growth":
			c.Growth.Elastic *= m
		}
	}
	return c, nil
}

func (f *PullFit) life(c permeation.Case, x []float64, until float64) (*permeation.Life, error) {
	c, err := f.cased(c, x)
	if err != nil {
		return nil, err
	}
	return c.Run(until, permeation.Options{})
}

// curve returns the carbonation at the times.
func (f *PullFit) curve(x, times []float64) ([]float64, error) {
	l, err := f.life(f.s.Case, x, times[len(times)-1])
	if err != nil {
		return nil, err
	}
	out := make([]float64, len(times))
	for i, t := range times {
		p, err := l.At(t)
		if err != nil {
			return nil, err
		}
		out[i] = p.Carbonation
	}
	return out, nil
}

// Case returns the calibrated case.
func (f *PullFit) Case() (permeation.Case, error) { return f.cased(f.s.Case, f.x) }

// Along returns the fit with its predictions, its limit and its stop rule on
// another case: the same pack, along the lane of the design and not as the
// pulls were kept. The fitted numbers and what further pulls tell stay.
func (f *PullFit) Along(c permeation.Case) *PullFit {
	out := *f
	out.along = &c
	return &out
}

// Held returns a lane whose last stretch goes on to the time until [s], where
// it ends before: for a laboratory that keeps its bottles as they are.
func Held(l climate.Lane, until float64) climate.Lane {
	l.Segments = append([]climate.Segment(nil), l.Segments...)
	if n := len(l.Segments); n > 0 {
		s := &l.Segments[n-1]
		s.Duration = math.Max(s.Duration, until-s.Start)
	}
	return l
}
