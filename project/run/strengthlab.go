package run

import (
	"context"
	"fmt"
	"math"

	"costrel/physics/shell"
	"costrel/project/design"
)

// StrengthKeys are the figures that [LabStrength] computes.
var StrengthKeys = []string{"growth.diameter", "growth.height", "fillpoint.drop", "burst.pressure", "topload.empty"}

// LabStrength computes what the laboratory measures of stiffness, strength and
// creep, by figure key in SI, with every solver before it and one mesh: for
// calibration, which asks often. A pack without pressure has no growth.
func LabStrength(ctx context.Context, d *design.Design, cache *Cache) (map[string]float64, error) {
	done := evaluate(d, work{ctx: ctx, full: true, until: "pressure"}, cache)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	for _, name := range []string{"bottle", "preform", "reheat", "blow", "wall"} {
		if e := done[name]; e.err != nil {
			return nil, e.err
		}
	}
	t, err := newStrengthTests(&pass{d: d, name: "strength", work: work{ctx: ctx, full: true}, done: done})
	if err != nil {
		return nil, err
	}
	t.b.Quick = true
	out := map[string]float64{}
	if t.pressures != nil {
		in, err := t.growthInput()
		if err != nil {
			return nil, err
		}
		r, err := shell.Grow(in)
		if err != nil {
			return nil, fmt.Errorf("thermal stability: %w", err)
		}
		out["growth.diameter"], out["growth.height"] = r.Read.Gauge, r.Read.Height
		if in.FillDepth > 0 {
			out["fillpoint.drop"] = r.Read.FillDrop
		}
	}
	b, err := shell.Burst(shell.BurstInput{Bottle: t.b, Soft: t.labSoft, Steps: burstSteps})
	if err != nil {
		return nil, fmt.Errorf("burst: %w", err)
	}
	out["burst.pressure"] = b.Pressure
	l, err := shell.TopLoad(shell.TopLoadInput{Bottle: t.b, Fill: shell.EmptyVented, Soft: t.labSoft, Steps: pushSteps, Brief: true})
	if err != nil {
		return nil, fmt.Errorf("top load: %w", err)
	}
	out["topload.empty"], _ = expected(l)
	return out, nil
}

// expected returns the top load to expect of real bottles and the largest: the
// knock-down is a lower bound of tests, the perfect shell an upper.
func expected(r shell.TopLoadResult) (load, high float64) {
	if !r.Buckled {
		return r.Design, r.Design
	}
	high = math.Min(r.Perfect, r.Largest)
	return (r.Design + high) / 2, high
}
