package run

import (
	"context"
	"errors"
	"fmt"
	"math"

	"costrel/physics/shell"
	"costrel/project/design"
	"costrel/unit"
)

// StrengthKeys are the figures that [LabStrength] computes for a fit of the
// factors; burst.expansion, which hangs on handling.hardening_strain alone, comes
// beside them.
var StrengthKeys = []string{"growth.diameter", "growth.height", "fillpoint.drop", "burst.pressure", "topload.empty"}

// ExpansionKey is the gain of volume at burst, beside the StrengthKeys.
const ExpansionKey = "burst.expansion"

// LabStrength computes what the laboratory measures of stiffness, strength and
// creep, by figure key in SI, with every solver before it and one mesh: for
// calibration, which asks often. A pack without pressure has no growth.
func LabStrength(ctx context.Context, d *design.Design, cache *Cache) (map[string]float64, error) {
	out, err := labStrength(ctx, d, cache)
	if err != nil && ctx.Err() == nil {
		err = errors.New(unit.Spell(err.Error(), unit.EU))
	}
	return out, err
}

func labStrength(ctx context.Context, d *design.Design, cache *Cache) (map[string]float64, error) {
	done := evaluate(d, work{ctx: ctx, full: true, even: true, until: "pressure"}, cache)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	for _, name := range []string{"bottle", "preform", "reheat", "blow", "wall"} {
		if e := done[name]; e.err != nil {
			return nil, e.err
		}
	}
	t, err := newStrengthTests(&pass{d: d, name: "strength", work: work{ctx: ctx, full: true, even: true}, done: done})
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
		if why := gone(r); why != "" {
			return nil, fmt.Errorf("thermal stability: %s", why)
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
	out["burst.pressure"], out[ExpansionKey] = b.Pressure, b.Gain
	l, err := shell.TopLoad(shell.TopLoadInput{Bottle: t.b, Fill: shell.EmptyVented, Stroke: d.Handling.Stroke, Soft: t.labSoft, Steps: pushLeast, Longest: pushStride, Brief: true})
	if err != nil {
		return nil, fmt.Errorf("top load: %w", err)
	}
	out["topload.empty"] = expected(l).likely * d.Handling.TopLoad
	return out, nil
}

// loads are what can be said of the top load of real bottles.
type loads struct {
	low    float64 // lower bound of tests: the first buckle knocked down
	plain  float64 // lower bound of tests on the plain wall, at most first
	first  float64 // first buckle of the perfect bottle, or its largest load
	likely float64 // halfway between plain and first
	high   float64 // first, or towards the collapse of the round bottle
	corner float64 // 0 for a plain wall .. 1 for a buckle that the form alone brings on
}

// expected returns the top load to expect of real bottles. The knock-down is a
// lower bound of tests on plain walls, γ of their classical load. A buckle that
// a corner or step brings on earlier has its imperfection in the form already:
// it is knocked down only as far as that bound, and the wall may carry on beyond
// it, at most to the collapse of the round bottle.
func expected(r shell.TopLoadResult) loads {
	q := loads{low: r.Design, first: math.Min(r.Perfect, r.Largest), plain: r.Design}
	q.high = q.first
	if r.Wave > r.Borne {
		bound := r.Knockdown.Gamma * math.Max(r.Wave-r.Borne, r.Classical)
		q.plain = math.Min(q.first, r.Borne+bound)
		if r.Largest > q.first {
			q.corner = math.Min(1, math.Max(0, 1-(q.first-r.Borne)/bound))
		}
		q.high += q.corner * (r.Largest - q.first)
	}
	q.low = math.Min(q.low, q.plain)
	q.likely = (q.plain + q.first) / 2
	return q
}
