package shell

import (
	"errors"
	"fmt"

	"costrel/unit"
)

// SoftenInput asks at which temperature a pack leaves its limits, say in hot
// water.
type SoftenInput struct {
	Bottle
	Warmth Warmth
	// Pressure inside by temperature [Pa, gauge]; nil for none.
	Pressure func(unit.Temperature) float64
	From, To unit.Temperature // searched; 0 for the ends of the table
	Growth   float64          // largest diameter growth allowed, elastic and at once; 0 for 0.03
	TopLoad  float64          // load the empty bottle must carry [N], after the knock-down; 0 leaves it out
}

// SoftenResult is the temperature at which the first limit is passed.
type SoftenResult struct {
	Temperature unit.Temperature
	Limit       string // "growth", "no equilibrium", "top load"; "none" when all hold up to To
	Growth      float64
	TopLoad     float64 // at the temperature [N]; 0 when left out
	Warnings    []string
}

// Soften bisects the temperature to 0.1 K. The stiffness by temperature is the
// table's, from memory unless the caller has a better one; a wall that shrinks
// back is not part of it.
func Soften(in SoftenInput) (SoftenResult, error) {
	n := len(in.Warmth.At)
	if n < 2 {
		return SoftenResult{}, fmt.Errorf("shell: softening: table of %d temperatures, at least 2", n)
	}
	if in.From == 0 {
		in.From = in.Warmth.At[0]
	}
	if in.To == 0 {
		in.To = in.Warmth.At[n-1]
	}
	if in.Growth == 0 {
		in.Growth = 0.03
	}
	if !(in.To > in.From) || !(in.Growth > 0) || in.TopLoad < 0 {
		return SoftenResult{}, fmt.Errorf("shell: softening: from %.1f to %.1f °C, growth %g, top load %g N", in.From.Celsius(), in.To.Celsius(), in.Growth, in.TopLoad)
	}
	b := in.Bottle
	b.Quick, b.Creep = true, nil
	top := 0.0
	if in.TopLoad > 0 {
		r, err := TopLoad(TopLoadInput{Bottle: b, Fill: EmptyVented, Steps: 15})
		if err != nil {
			return SoftenResult{}, err
		}
		top = r.Design
	}
	at := func(t unit.Temperature) (SoftenResult, error) {
		soft, _, warn, err := in.Warmth.Factors(t)
		r := SoftenResult{Temperature: t, Limit: "none"}
		if err != nil {
			return r, err
		}
		if warn != "" {
			r.Warnings = append(r.Warnings, warn)
		}
		if in.Pressure != nil {
			g, err := Grow(GrowInput{Bottle: b, Stages: []Stage{{Pressure: in.Pressure(t), Soft: soft}}})
			if errors.Is(err, ErrNoConvergence) {
				r.Limit = "no equilibrium"
				return r, nil
			}
			if err != nil {
				return r, err
			}
			if r.Growth = g.End.Diameter; r.Growth > in.Growth {
				r.Limit = "growth"
			}
		}
		// The buckling load of a given wall goes with its stiffness.
		if r.TopLoad = top * soft; top > 0 && r.TopLoad < in.TopLoad {
			r.Limit = "top load"
		}
		return r, nil
	}
	low, err := at(in.From)
	if err != nil || low.Limit != "none" {
		return low, err
	}
	high, err := at(in.To)
	if err != nil || high.Limit == "none" {
		return high, err
	}
	lo, hi := in.From, in.To
	for hi-lo > 0.1 {
		mid := (lo + hi) / 2
		r, err := at(mid)
		if err != nil {
			return r, err
		}
		if r.Limit == "none" {
			lo = mid
		} else {
			hi, high = mid, r
		}
	}
	high.Warnings = append(high.Warnings, "stiffness by temperature from the table of the case; shrinkage of the wall is not part of it")
	return high, nil
}
