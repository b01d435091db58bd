package run

import (
	"costrel/quality"
	"costrel/unit"
)

// marginPlots draws by place what is left to a limit: of the wall to that on
// its thinnest place, of the stress to the strength of the wall there.
func marginPlots(plots []Plot, verdicts []quality.Verdict) []Plot {
	var out []Plot
	left := Axis{Label: "margin", Kind: unit.Fraction, Unit: "%"}
	for _, p := range plots {
		switch p.Key {
		case "wall.arc":
			limit, ok := thinnest(verdicts)
			if !ok {
				continue
			}
			wall := p.Series[len(p.Series)-1] // the blown one, once there
			out = append(out, Plot{
				Key: "wall.margin", Stage: p.Stage, Title: "Margin of the wall to its limit", X: p.X, Y: left, Marks: p.Marks,
				Series: []Series{{Name: wall.Name, X: wall.X, Y: each(wall.Y, func(t float64) float64 { return t/limit - 1 })}},
				Note:   "wall over the limit of its thinnest place, less one; below zero it is too thin; " + marginNote(wall.Name),
			})
		case "strength.use":
			use := p.Series[0]
			out = append(out, Plot{
				Key: "strength.margin", Stage: p.Stage, Title: "Margin of the wall to its strength", X: p.X, Y: left, Marks: p.Marks,
				Series: []Series{{Name: "left", X: use.X, Y: each(use.Y, func(u float64) float64 { return 1 - u })}},
				Note:   "one less the share of the strength in use; below zero the wall is loaded beyond it. " + p.Note,
			})
		}
	}
	return out
}

// marginNote says which wall a margin is of.
func marginNote(wall string) string {
	if wall == blownName {
		return "the wall is the blown one"
	}
	return wallNote
}

// thinnest returns the strictest lower limit on the thinnest wall [m].
func thinnest(verdicts []quality.Verdict) (limit float64, ok bool) {
	for _, v := range verdicts {
		if v.Limit.Figure == "wall.min" && v.Limit.Side == quality.Min && v.Limit.Value > limit {
			limit, ok = v.Limit.Value, true
		}
	}
	return limit, ok
}

// each returns f of every number.
func each(list Numbers, f func(float64) float64) Numbers {
	out := make(Numbers, len(list))
	for i, v := range list {
		out[i] = f(v)
	}
	return out
}
