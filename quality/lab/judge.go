package lab

import (
	"fmt"
	"math"
	"strings"

	"costrel/quality"
	"costrel/quality/stat"
	"costrel/unit"
)

// Demand is what a sample must show.
type Demand struct {
	Evidence stat.Evidence
	Scale    stat.Scale // "" = the scale of the series
	ThinPpk  float64    // a pass with a smaller Ppk is called thin
}

// Usual asks for 95 % of the pieces with 95 % confidence, and calls a pass
// thin where Ppk is below 1.33.
func Usual() Demand { return Demand{Evidence: stat.Usual(), ThinPpk: 1.33} }

// Flagged is a reading that a test for outliers marks.
type Flagged struct {
	Piece string   `json:"piece"`
	Value float64  `json:"value"` // SI
	Tail  string   `json:"tail"`  // on which side of the median
	Tests []string `json:"tests"`
}

// Verdict is what a sample says of a limit. Values are SI; on the log scale
// Mean is the geometric mean and S the standard deviation of the logarithms.
type Verdict struct {
	Name  string        `json:"name"`
	Limit quality.Limit `json:"limit"`
	Word  quality.Word  `json:"verdict"`
	Thin  bool          `json:"thin"` // passes, but Ppk is below the demand

	N        int        `json:"n"`
	Censored int        `json:"censored"`
	Scale    stat.Scale `json:"scale"`
	Mean     float64    `json:"mean"`
	S        float64    `json:"s"`
	Min      float64    `json:"min"`
	Max      float64    `json:"max"`

	HasBound   bool    `json:"has_bound"`
	K          float64 `json:"k"`
	Bound      float64 `json:"bound"`
	Margin     float64 `json:"margin"`  // of the bound, positive inside
	Percent    float64 `json:"percent"` // Margin in per cent of the limit
	HasPercent bool    `json:"has_percent"`
	MeanMargin float64 `json:"mean_margin"`

	Ppk    stat.Index `json:"ppk"`
	HasPpk bool       `json:"has_ppk"`

	Need    int  `json:"need"`     // sample size that the same mean and s would need
	HasNeed bool `json:"has_need"` // false: no number would do, or it has no meaning

	Tail      stat.Tail       `json:"tail"`   // the tail that decides
	Spread    string          `json:"spread"` // which side makes the spread: lower, upper, both
	Outside   []string        `json:"outside"`
	Flags     []Flagged       `json:"flags"`
	Without   float64         `json:"without"` // bound if the flagged readings were not there: to weigh, never to report
	HasFree   bool            `json:"has_without"`
	Normality *stat.Normality `json:"normality"`

	Method string `json:"method"`
	Reason string `json:"reason"`
}

// Judge returns the verdict of a series on a limit.
//
// Pass: the one-sided tolerance bound lies inside. Fail: the mean lies
// outside, or the sample shows with the confidence of the demand that less
// than the coverage keeps the limit. Not shown: the mean passes, the evidence
// does not. Readings above a censoring value are taken with a Weibull fit
// against a minimum; where a censored sample allows no fit, or all readings
// are equal, the verdict counts pieces without a distribution.
// Sources: Owen1968, NIST2012 7.2.6.3, MeekerEscobar1998, ClopperPearson1934.
func Judge(s Series, l quality.Limit, d Demand) (Verdict, error) {
	if s.Kind != l.Kind {
		return Verdict{}, fmt.Errorf("lab: %s: the limit is a %s, the readings a %s", s.Name(), l.Kind, s.Kind)
	}
	if len(s.Readings) == 0 {
		return Verdict{}, fmt.Errorf("lab: %s: no readings", s.Name())
	}
	if l.Side != quality.Min && l.Side != quality.Max || math.IsNaN(l.Value) || math.IsInf(l.Value, 0) {
		return Verdict{}, fmt.Errorf("lab: %s: limit %q of %g", s.Name(), l.Side, l.Value)
	}
	x, censored := s.Values()
	sum, err := stat.Summarize(x)
	if err != nil {
		return Verdict{}, err
	}
	v := Verdict{
		Name: s.Name(), Limit: l, N: len(x), Censored: censored, Scale: d.Scale, Mean: sum.Mean, S: sum.S, Min: sum.Min, Max: sum.Max,
		Tail: stat.Lower, Spread: "both",
	}
	if v.Scale == "" {
		v.Scale = s.Scale
	}
	if v.Scale == "" {
		v.Scale = stat.Linear
	}
	if l.Side == quality.Max {
		v.Tail = stat.Upper
	}
	for _, r := range s.Readings {
		if surelyOutside(r, l) {
			v.Outside = append(v.Outside, s.Piece(r))
		}
	}
	switch {
	case censored > 0:
		err = v.censored(s, d)
	case v.N < 2:
		v.MeanMargin = l.Margin(v.Mean)
		v.Word, v.Reason = quality.NotShown, "one piece shows no spread"
		if !l.Meets(v.Mean) {
			v.Word, v.Reason = quality.Fail, "the only piece is outside"
		}
	case v.S <= 1e-12*math.Max(math.Abs(v.Min), math.Abs(v.Max)):
		v.MeanMargin = l.Margin(v.Mean)
		err = v.free(s, d, "all readings are equal: the gauge resolves too little for a bound")
	default:
		err = v.normal(s, x, d)
	}
	if err != nil {
		return Verdict{}, fmt.Errorf("lab: %s: %w", s.Name(), err)
	}
	return v, nil
}

// surelyOutside reports whether a reading, censored or not, is outside.
func surelyOutside(r Reading, l quality.Limit) bool {
	switch r.Censor {
	case Above:
		return l.Side == quality.Max && l.Margin(r.Value) <= 0
	case Below:
		return l.Side == quality.Min && l.Margin(r.Value) <= 0
	}
	return !l.Meets(r.Value)
}

// surelyInside reports whether a reading, censored or not, is inside.
func surelyInside(r Reading, l quality.Limit) bool {
	switch r.Censor {
	case Above:
		return l.Side == quality.Min && l.Meets(r.Value)
	case Below:
		return l.Side == quality.Max && l.Meets(r.Value)
	}
	return l.Meets(r.Value)
}

// normal judges by the tolerance bound of a normal or lognormal sample.
func (v *Verdict) normal(s Series, x []float64, d Demand) error {
	l := v.Limit
	fit, err := stat.Fit(x, v.Scale)
	if err != nil {
		return err
	}
	v.Mean, v.S = fit.Centre(), fit.S
	v.MeanMargin = l.Margin(v.Mean)
	b, err := fit.Bound(v.Tail, d.Evidence)
	if err != nil {
		return err
	}
	v.setBound(b.Value)
	v.K = b.K
	v.Method = fmt.Sprintf("one-sided tolerance bound, %s, k %.3f for %g/%g, n %d", map[stat.Scale]string{stat.Linear: "normal", stat.Log: "lognormal"}[v.Scale], b.K, 100*d.Evidence.Coverage, 100*d.Evidence.Confidence, v.N)
	if err := v.spread(s, x, d); err != nil {
		return err
	}
	if v.Scale == stat.Log && l.Value <= 0 {
		// A positive quantity against a limit of zero or less.
		v.Word, v.Reason = quality.Pass, "positive readings"
		if l.Side == quality.Max {
			v.Word, v.Reason = quality.Fail, "positive readings against a maximum of zero or less"
		}
		return nil
	}
	spec := stat.Spec{Lower: l.Value, HasLower: l.Side == quality.Min, Upper: l.Value, HasUpper: l.Side == quality.Max}
	c, err := fit.Capability(spec, d.Evidence.Confidence)
	if err != nil {
		return err
	}
	v.Ppk, v.HasPpk = c.Ppk, true
	if v.Need, v.HasNeed, err = fit.NeededN(v.Tail, l.Value, d.Evidence); err != nil {
		return err
	}
	refuted, err := fit.Refuted(v.Tail, l.Value, d.Evidence)
	if err != nil {
		return err
	}
	switch {
	case !l.Meets(v.Mean):
		v.Word, v.Reason, v.HasNeed = quality.Fail, "the mean is outside", false
	case l.Meets(v.Bound):
		v.Word = quality.Pass
		v.Reason = fmt.Sprintf("the bound %s is %s inside", v.show(v.Bound), v.diff(v.Margin))
		if v.Ppk.Value < d.ThinPpk {
			v.Thin = true
			v.Reason += fmt.Sprintf("; thin: Ppk %.2f is below %.2f", v.Ppk.Value, d.ThinPpk)
		}
		if len(v.Outside) > 0 {
			v.Reason += "; outside: " + strings.Join(v.Outside, ", ")
		}
	case refuted:
		v.Word = quality.Fail
		v.Reason = fmt.Sprintf("the sample shows with %g %% confidence that more than %.3g %% are outside", 100*d.Evidence.Confidence, 100*(1-d.Evidence.Coverage))
	default:
		v.Word = quality.NotShown
		v.Reason = fmt.Sprintf("the mean passes, the evidence does not: the bound %s is %s outside; ", v.show(v.Bound), v.diff(-v.Margin))
		if v.HasNeed {
			v.Reason += fmt.Sprintf("%d pieces of the same mean and s would show it", v.Need)
		} else {
			v.Reason += "no number of pieces of the same mean and s would show it"
		}
	}
	v.Reason += v.tailRemark()
	return nil
}

func (v *Verdict) setBound(b float64) {
	v.Bound, v.HasBound = b, true
	v.Margin = v.Limit.Margin(b)
	v.Percent, v.HasPercent = v.Limit.Percent(v.Margin)
}

// spread finds the outliers and the side that makes the spread.
func (v *Verdict) spread(s Series, x []float64, d Demand) error {
	y, err := v.Scale.To(x)
	if err != nil {
		return err
	}
	flags, err := stat.Flags(y)
	if err != nil {
		return err
	}
	marked := map[int]bool{}
	sum, err := stat.Summarize(y)
	if err != nil {
		return err
	}
	for _, f := range flags {
		tail := "upper"
		if y[f.Index] < sum.Median {
			tail = "lower"
		}
		marked[f.Index] = true
		v.Flags = append(v.Flags, Flagged{Piece: s.Piece(s.Readings[f.Index]), Value: x[f.Index], Tail: tail, Tests: f.Tests})
	}
	below, above, err := stat.HalfSpreads(y)
	if err != nil {
		return err
	}
	switch {
	case below > 1.25*above:
		v.Spread = "lower"
	case above > 1.25*below:
		v.Spread = "upper"
	}
	if len(y) >= 8 {
		n, err := stat.AndersonDarling(y)
		if err != nil {
			return err
		}
		v.Normality = &n
	}
	if len(flags) == 0 || len(flags) > len(x)-3 {
		return nil
	}
	var rest []float64
	for i, u := range x {
		if !marked[i] {
			rest = append(rest, u)
		}
	}
	fit, err := stat.Fit(rest, v.Scale)
	if err != nil {
		return err
	}
	b, err := fit.Bound(v.Tail, d.Evidence)
	if err != nil {
		return err
	}
	v.Without, v.HasFree = b.Value, true
	return nil
}

// tailRemark says which tail decides, and where the other makes the spread.
func (v *Verdict) tailRemark() string {
	out := fmt.Sprintf("; the %s tail decides", v.Tail)
	if v.Spread != "both" && v.Spread != string(v.Tail) {
		out += fmt.Sprintf(", but most of the spread is on the %s side", v.Spread)
	}
	if v.Normality != nil && v.Normality.P < 0.05 {
		out += fmt.Sprintf("; the sample does not look %s (p %.2g): the bound is weak", map[stat.Scale]string{stat.Linear: "normal", stat.Log: "lognormal"}[v.Scale], v.Normality.P)
	}
	if len(v.Flags) > 0 {
		var parts []string
		for _, f := range v.Flags {
			parts = append(parts, fmt.Sprintf("%s (%s)", f.Piece, v.show(f.Value)))
		}
		out += "; look at " + strings.Join(parts, ", ")
		if v.HasFree {
			out += fmt.Sprintf(": without, the bound would be %s", v.show(v.Without))
		}
	}
	return out
}

// show prints a value in the unit of the limit.
func (v *Verdict) show(si float64) string {
	name := v.Limit.Unit
	if name == "" {
		name = unit.Preferred(v.Limit.Kind, unit.EU)
	}
	return unit.Format(v.Limit.Kind, si, name, 4)
}

// diff prints a difference in the unit of the limit.
func (v *Verdict) diff(si float64) string {
	d, symbol := v.Limit.InUnit(si)
	return strings.TrimSpace(fmt.Sprintf("%.3g %s", d, symbol))
}
