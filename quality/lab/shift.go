package lab

import (
	"fmt"
	"math"

	"costrel/quality"
	"costrel/quality/stat"
)

// Shift is what moved between two samples of one quantity, old against new.
type Shift struct {
	Name       string          `json:"name"`
	Old        Verdict         `json:"old"`
	New        Verdict         `json:"new"`
	Means      stat.Comparison `json:"means"`  // new less old, on the scale of the verdict; logarithms on the log scale
	Mean       float64         `json:"mean"`   // new mean less old, SI
	Bound      float64         `json:"bound"`  // new bound less old, SI
	Lost       float64         `json:"lost"`   // margin of the bound lost, SI; positive is worse
	Shown      bool            `json:"shown"`  // the interval of the difference of the means excludes zero
	PerKg      float64         `json:"per_kg"` // margin lost per mass saved [SI/kg]
	HasPerMass bool            `json:"has_per_kg"`
	Reason     string          `json:"reason"`
}

// CompareSeries judges two series on one limit and returns what moved. saved
// is the mass saved from old to new [kg]; 0 where it says nothing.
func CompareSeries(older, newer Series, l quality.Limit, d Demand, saved float64) (Shift, error) {
	if older.Key != newer.Key {
		return Shift{}, fmt.Errorf("lab: comparison of %s with %s", older.Name(), newer.Name())
	}
	o, err := Judge(older, l, d)
	if err != nil {
		return Shift{}, err
	}
	n, err := Judge(newer, l, d)
	if err != nil {
		return Shift{}, err
	}
	if !o.HasBound || !n.HasBound || o.Censored > 0 || n.Censored > 0 {
		return Shift{}, fmt.Errorf("lab: comparison of %s with %s: both need a bound and no censored reading", older.Name(), newer.Name())
	}
	sum := func(s Series, v Verdict) (stat.Summary, error) {
		x, _ := s.Values()
		y, err := v.Scale.To(x)
		if err != nil {
			return stat.Summary{}, err
		}
		return stat.Summarize(y)
	}
	so, err := sum(older, o)
	if err != nil {
		return Shift{}, err
	}
	sn, err := sum(newer, n)
	if err != nil {
		return Shift{}, err
	}
	c, err := stat.Compare(so, sn, d.Evidence.Confidence)
	if err != nil {
		return Shift{}, err
	}
	out := Shift{Name: older.Label, Old: o, New: n, Means: c, Mean: n.Mean - o.Mean, Bound: n.Bound - o.Bound, Lost: o.Margin - n.Margin, Shown: c.Lo > 0 || c.Hi < 0}
	if saved > 0 && !math.IsInf(saved, 0) {
		out.PerKg, out.HasPerMass = out.Lost/saved, true
	}
	moved := "the means differ"
	if !out.Shown {
		moved = "a difference of the means is not shown"
	}
	out.Reason = fmt.Sprintf("%s (p %.2g); margin of the bound %s to %s; %s to %s", moved, c.P, o.diff(o.Margin), n.diff(n.Margin), o.Word, n.Word)
	return out, nil
}

// ByGroup compares the groups of a series by a label of its rows: the effect
// of the moulds.
func ByGroup(s Series, label string) (stat.ANOVA, error) {
	g, err := s.Groups(label)
	if err != nil {
		return stat.ANOVA{}, err
	}
	return stat.OneWay(g)
}

// Harmonics returns the first harmonic of the readings round the bottle, one
// for each row whose replicates are equal angles (0, 90, 180, 270), and the
// alignment of their phases.
func Harmonics(s Series) ([]stat.Harmonic, stat.Alignment, error) {
	var out []stat.Harmonic
	var phases []float64
	for i := range s.Rows {
		var x []float64
		var at []string
		for _, r := range s.Readings {
			if r.Row == i {
				x, at = append(x, r.Value), append(at, r.Replicate)
			}
		}
		if x == nil {
			continue
		}
		for j, a := range at {
			if a != fmt.Sprint(360*j/len(at)) {
				return nil, stat.Alignment{}, fmt.Errorf("lab: harmonics: line %d: reading %d of %d is at %s°, want equal steps from 0°", s.Rows[i].Line, j+1, len(at), a)
			}
		}
		h, err := stat.FirstHarmonic(x)
		if err != nil {
			return nil, stat.Alignment{}, fmt.Errorf("lab: harmonics: line %d: %w", s.Rows[i].Line, err)
		}
		out, phases = append(out, h), append(phases, h.Phase)
	}
	if len(out) < 2 {
		return out, stat.Alignment{}, fmt.Errorf("lab: harmonics: %d levels, want at least 2", len(out))
	}
	a, err := stat.Align(phases)
	return out, a, err
}
