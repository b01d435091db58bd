package calibrate

import (
	"context"
	"fmt"
	"math"
	"slices"

	"costrel/num/fit"
	"costrel/project/design"
	"costrel/project/run"
)

// weighing is one fit of strength factors to tests.
type weighing struct {
	ctx      context.Context
	d        *design.Design
	tests    []Tested
	progress func(runs int)
	cache    *run.Cache
	out      *StrengthFit
	prior    []float64 // of the factors, before any test
	gain     float64   // of volume at burst, as computed last
}

// priors returns the factors as the template of a pack class has them.
func priors(class string) ([]float64, error) {
	doc, err := design.Load("", "schema: 1\nname: prior\nclass: "+class+"\n")
	if err != nil {
		return nil, fmt.Errorf("calibrate: the template of %s: %w", class, err)
	}
	out := make([]float64, len(strengthFactors))
	for i, b := range strengthFactors {
		v, _, ok := doc.Design.Number(b.Path)
		if !ok || !(v > 0) {
			return nil, fmt.Errorf("calibrate: the template of %s has no %s", class, b.Path)
		}
		out[i] = v
	}
	return out, nil
}

// scatter is how far the mean of a test and the model may lie apart, relative.
func (t Tested) scatter() float64 {
	return math.Hypot(strengthScatter, t.SD/t.Mean/math.Sqrt(float64(max(t.N, 1))))
}

// off returns a computed value against a test, over its scatter.
func (t Tested) off(v float64) float64 { return math.Log(v/t.Mean) / t.scatter() }

// at returns the computed tests with the free factors at exp(x), the others as
// the design has them.
func (w *weighing) at(free []int, x []float64) ([]float64, error) {
	c := w.d.Clone()
	to := []*float64{&c.Handling.Modulus, &c.Handling.Creep, &c.Handling.Strength, &c.Handling.TopLoad}
	for k, i := range free {
		*to[i] = math.Exp(x[k])
	}
	v, err := run.LabStrength(w.ctx, c, w.cache)
	if err != nil {
		return nil, err
	}
	w.out.Runs++
	w.gain = v[run.ExpansionKey]
	if w.progress != nil {
		w.progress(w.out.Runs)
	}
	out := make([]float64, len(w.tests))
	for i, t := range w.tests {
		if out[i] = v[t.Key]; !(out[i] > 0) {
			return nil, fmt.Errorf("calibrate: the pack of this design has no %s", t.Key)
		}
	}
	return out, nil
}

// problem returns the least squares of the free factors.
func (w *weighing) problem(free []int) fit.Problem {
	n := len(w.tests)
	p := fit.Problem{Residuals: n + len(free), Settle: settle, OneSided: true}
	for _, i := range free {
		b := strengthFactors[i]
		p.Low, p.High = append(p.Low, math.Log(b.Low)), append(p.High, math.Log(b.High))
		p.Start = append(p.Start, math.Log(math.Min(math.Max(w.prior[i], b.Low), b.High)))
		p.Step = append(p.Step, 0.03)
	}
	p.Residual = func(x, r []float64) error {
		v, err := w.at(free, x)
		if err != nil {
			if w.ctx.Err() != nil {
				return err
			}
			// So weak that the pack does not survive a test: far from any data.
			for i := range r {
				r[i] = 100
			}
			return nil
		}
		for i, t := range w.tests {
			r[i] = t.off(v[i])
		}
		for k, i := range free {
			r[n+k] = (x[k] - p.Start[k]) / strengthFactors[i].spread
		}
		return nil
	}
	return p
}

// told returns those of the free factors on which the tests have a say.
func (w *weighing) told(free []int, r fit.Result) []int {
	var out []int
	for k, i := range free {
		if r.Bound[k] || math.Sqrt(math.Max(r.Inverse[k][k], 0)) <= 0.9*strengthFactors[i].spread {
			out = append(out, i)
		}
	}
	return out
}

// settled writes the fitted factors down.
func (w *weighing) settled(free []int, r fit.Result) {
	// Where the residuals are larger than their scatter, the scatter was taken too
	// small.
	grown := math.Max(1, math.Sqrt(r.SumSquares/float64(max(r.Freedom, 1))))
	for k, i := range free {
		f := &w.out.Knobs[i]
		f.After, f.Identified, f.Why = math.Exp(r.X[k]), true, ""
		f.SD = f.After * grown * math.Sqrt(math.Max(r.Inverse[k][k], 0))
		if r.Bound[k] {
			f.SD, f.Identified, f.Why = 0, false, "it ends on its bound and is not written"
		}
		w.out.Spread[i] = f.SD / f.After
	}
	m, l := slices.Index(free, modulus), slices.Index(free, topLoad)
	if m >= 0 && l >= 0 && !r.Bound[m] && !r.Bound[l] {
		c := r.Inverse
		w.out.Spread[topLoad] = grown * math.Sqrt(math.Max(c[m][m]+c[m][l]+c[l][m]+c[l][l], 0))
	}
}
