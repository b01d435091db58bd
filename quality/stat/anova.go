package stat

import (
	"fmt"
	"math"

	"costrel/num/dist"
)

// Group is the values of one mould, cavity or setting.
type Group struct {
	Name   string
	Values []float64
}

// GroupSummary is a group as summarised.
type GroupSummary struct {
	Name string `json:"name"`
	Summary
}

// ANOVA is a one-way analysis of variance.
type ANOVA struct {
	Groups    []GroupSummary `json:"groups"`
	N         int            `json:"n"`
	BetweenSS float64        `json:"between_ss"`
	WithinSS  float64        `json:"within_ss"`
	BetweenDF int            `json:"between_df"`
	WithinDF  int            `json:"within_df"`
	F         float64        `json:"f"`
	P         float64        `json:"p"`         // probability of so large an F without a difference
	WithinS   float64        `json:"within_s"`  // pooled standard deviation within groups
	BetweenS  float64        `json:"between_s"` // standard deviation of the group effects; 0 where the estimate is negative
	Share     float64        `json:"share"`     // between sum of squares over total
}

// OneWay compares the means of at least two groups, one of them with at least
// two values. Equal values within every group are refused: F has no value.
//
//	F = [SSB/(k-1)] / [SSW/(N-k)]
//
// Checked with NIST1998 SiRstv.
func OneWay(groups []Group) (ANOVA, error) {
	var out ANOVA
	var all []float64
	for _, g := range groups {
		if err := finite("analysis of variance: group "+g.Name, g.Values, 1); err != nil {
			return ANOVA{}, err
		}
		s, err := Summarize(g.Values)
		if err != nil {
			return ANOVA{}, err
		}
		out.Groups = append(out.Groups, GroupSummary{Name: g.Name, Summary: s})
		all = append(all, g.Values...)
	}
	if len(groups) < 2 {
		return ANOVA{}, fmt.Errorf("stat: analysis of variance: %d groups, want at least 2", len(groups))
	}
	total, err := Summarize(all)
	if err != nil {
		return ANOVA{}, err
	}
	var sumN2 float64
	for _, g := range out.Groups {
		d := g.Mean - total.Mean
		out.BetweenSS += float64(g.N) * d * d
		out.WithinSS += float64(g.N-1) * g.S * g.S
		sumN2 += float64(g.N) * float64(g.N)
	}
	out.N = len(all)
	out.BetweenDF, out.WithinDF = len(groups)-1, len(all)-len(groups)
	if out.WithinDF < 1 {
		return ANOVA{}, fmt.Errorf("stat: analysis of variance: %d values in %d groups leave no spread within", len(all), len(groups))
	}
	msb, msw := out.BetweenSS/float64(out.BetweenDF), out.WithinSS/float64(out.WithinDF)
	if !(msw > 0) {
		return ANOVA{}, fmt.Errorf("stat: analysis of variance: no spread within any group")
	}
	out.F = msb / msw
	if out.P, err = dist.FSurvival(out.F, float64(out.BetweenDF), float64(out.WithinDF)); err != nil {
		return ANOVA{}, err
	}
	out.WithinS = math.Sqrt(msw)
	n0 := (float64(out.N) - sumN2/float64(out.N)) / float64(out.BetweenDF)
	out.BetweenS = math.Sqrt(math.Max(0, msb-msw) / n0)
	out.Share = out.BetweenSS / (out.BetweenSS + out.WithinSS)
	return out, nil
}
