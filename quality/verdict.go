package quality

import (
	"fmt"
	"math"
	"strings"

	"costrel/figure"
	"costrel/unit"
)

// Word is a verdict.
type Word string

// The verdicts.
const (
	Pass        Word = "pass"         // the whole band lies inside
	Fail        Word = "fail"         // outside
	Close       Word = "close"        // the 95 % band straddles the limit
	NotShown    Word = "not shown"    // the evidence does not reach
	NotComputed Word = "not computed" // no figure
)

// rank orders the words worst first.
func (w Word) rank() int {
	switch w {
	case Fail:
		return 0
	case Close:
		return 1
	case NotShown:
		return 2
	case NotComputed:
		return 3
	}
	return 4
}

// Verdict is what a figure makes of a limit. Margins are SI and positive
// inside.
type Verdict struct {
	Limit      Limit         `json:"limit"`
	Word       Word          `json:"verdict"`
	Figure     figure.Figure `json:"-"`           // zero when not computed
	Margin     float64       `json:"margin"`      // of the value
	BandMargin float64       `json:"band_margin"` // of the end of the band nearer to the limit; of the value where no band is known
	Percent    float64       `json:"percent"`     // Margin in per cent of the limit
	HasPercent bool          `json:"has_percent"` // false where per cent says nothing
	Reason     string        `json:"reason"`
}

// Computed reports whether the verdict has a figure.
func (v Verdict) Computed() bool { return v.Word != NotComputed }

// EstimatePrefix begins the warning of a method that is only an estimate: a
// figure with such a warning in its origin cannot pass a limit.
const EstimatePrefix = "estimate"

// BandKnown reports whether the 95 % band of a figure is known: the band
// holds the value, and where it has no width the value is given, or the
// effects of the inputs were looked for and none was found (Effects is then
// empty, not nil).
func BandKnown(f figure.Figure) bool {
	for _, x := range []float64{f.Value, f.Lo, f.Hi} {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	if f.Lo > f.Value || f.Value > f.Hi {
		return false
	}
	if f.Lo < f.Hi {
		return true
	}
	return f.Origin.Kind == figure.Given || f.Effects != nil
}

// IsEstimate returns the warning by which the origin of a figure says that
// its method is only an estimate.
func IsEstimate(f figure.Figure) (warning string, is bool) {
	for _, w := range f.Origin.Warnings {
		if len(w) >= len(EstimatePrefix) && strings.EqualFold(w[:len(EstimatePrefix)], EstimatePrefix) {
			return w, true
		}
	}
	return "", false
}

// Of returns the verdict of one figure on one limit.
//
// Fail: the whole band is outside, or no band is known and the value is.
// Close: the band straddles the limit. Not shown: the value is inside but no
// band is known, or the method is only an estimate. Pass: the rest. A figure
// of another kind than the limit, or one that is not finite, is not computed.
func Of(l Limit, f figure.Figure) Verdict {
	v := Verdict{Limit: l, Word: NotComputed}
	switch {
	case f.Kind != l.Kind:
		v.Reason = fmt.Sprintf("the limit is a %s, the figure a %s", l.Kind, f.Kind)
		return v
	case math.IsNaN(f.Value) || math.IsInf(f.Value, 0):
		v.Reason = "the figure is not finite"
		return v
	}
	v.Figure = f
	v.Margin = l.Margin(f.Value)
	v.BandMargin = v.Margin
	v.Percent, v.HasPercent = l.Percent(v.Margin)
	warning, estimate := IsEstimate(f)
	if !BandKnown(f) {
		v.Word, v.Reason = NotShown, "no band is known for the figure"
		if estimate {
			v.Reason += "; " + warning
		}
		if !l.Meets(f.Value) {
			v.Word, v.Reason = Fail, "the value is outside; "+v.Reason
		}
		return v
	}
	near, far := f.Lo, f.Hi
	if l.Side == Max {
		near, far = f.Hi, f.Lo
	}
	v.BandMargin = l.Margin(near)
	switch {
	case !l.Meets(far):
		v.Word, v.Reason = Fail, "the whole 95 % band is outside"
	case !l.Meets(near):
		v.Word, v.Reason = Close, fmt.Sprintf("the 95 %% band %s to %s straddles the limit", display(l, f.Lo), display(l, f.Hi))
	case estimate:
		v.Word, v.Reason = NotShown, warning
		return v
	default:
		v.Word = Pass
	}
	if estimate {
		v.Reason += "; " + warning
	}
	return v
}

// display marks a value of the limit's kind, in the limit's unit; for a reader of
// US units in that of the figure where the limit's is metric.
func display(l Limit, si float64) string {
	name, us := l.Unit, l.Unit
	if name == "" {
		name = unit.Preferred(l.Kind, unit.EU)
	}
	if us == "" || unit.Metric(us) {
		us = unit.Preferred(l.Kind, unit.US)
		if e, ok := figure.Find(l.Figure); ok && e.Kind == l.Kind && e.In(unit.US) != "" {
			us = e.In(unit.US)
		}
	}
	if us == "" {
		return unit.Format(l.Kind, si, name, 4)
	}
	return unit.Quote(l.Kind, si, 4, name, us)
}

// NotComputedBecause returns the verdict on a limit whose figure is missing.
func NotComputedBecause(l Limit, reason string) Verdict {
	if reason == "" {
		reason = "no stage computed the figure"
	}
	return Verdict{Limit: l, Word: NotComputed, Reason: reason}
}
