package hotfill

import (
	"fmt"

	"costrel/unit"
)

// SweepFill returns the cooled pack at each filling temperature. The headspace
// gas keeps its distance to the liquid. shrink gives the shrinkage at a filling
// temperature; nil keeps that of the pack. The liquid is the same mass where
// FillAt stays fixed, the same hot volume where FillAt was the filling
// temperature. A refused point ends the sweep with its error.
func SweepFill(p Pack, st Store, temperatures []unit.Temperature, shrink func(unit.Temperature) float64) ([]State, error) {
	below := unit.Temperature(0)
	if p.Gas != 0 {
		below = p.Temperature - p.Gas
	}
	hot := p.FillAt == p.Temperature
	out := make([]State, 0, len(temperatures))
	for _, t := range temperatures {
		q := p
		q.Temperature, q.Gas = t, t-below
		if hot {
			q.FillAt = t
		}
		if shrink != nil {
			q.Shrinkage = shrink(t)
		}
		s, err := Cool(q, st)
		if err != nil {
			return nil, fmt.Errorf("hotfill: sweep at ‹%.4g °C›: %w", t.Celsius(), err)
		}
		out = append(out, s)
	}
	return out, nil
}

// SweepHeadspace returns the cooled pack at each headspace at closing [m³]: the
// fill stays, the bottle's brimful volume follows.
func SweepHeadspace(p Pack, st Store, headspaces []float64) ([]State, error) {
	out := make([]State, 0, len(headspaces))
	for _, h := range headspaces {
		q := p
		if p.Liquid == nil {
			return nil, refuse("fill", "liquids", 0, "", "1", "give the drink")
		}
		if err := temperature("fill", p.Temperature); err != nil {
			return nil, err
		}
		if err := temperature("fill: stated at", p.FillAt); err != nil {
			return nil, err
		}
		q.Overflow = p.Fill*p.Liquid.Density(p.FillAt)/p.Liquid.Density(p.Temperature) + h
		s, err := Cool(q, st)
		if err != nil {
			return nil, fmt.Errorf("hotfill: sweep at a headspace of ‹%.4g mL›: %w", h*1e6, err)
		}
		out = append(out, s)
	}
	return out, nil
}
