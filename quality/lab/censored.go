package lab

import (
	"fmt"

	"costrel/quality"
	"costrel/quality/stat"
)

// censored judges a sample with readings that are only bounds.
func (v *Verdict) censored(s Series, d Demand) error {
	l := v.Limit
	var readings []stat.Reading
	failures, low, below := 0, 0.0, false
	seen := map[float64]bool{}
	for _, r := range s.Readings {
		readings = append(readings, stat.Reading{Value: r.Value, Censored: r.Censor == Above})
		if r.Censor == Exact {
			failures++
			seen[r.Value] = true
		}
		below = below || r.Censor == Below
		low = min(low, r.Value)
	}
	if below || l.Side == quality.Max || len(seen) < 2 || low < 0 || v.Min <= 0 {
		return v.free(s, d, "censored readings allow no fit on this side")
	}
	w, err := stat.FitWeibull(readings)
	if err != nil {
		return err
	}
	p := 1 - d.Evidence.Coverage
	b, err := w.QuantileLower(p, d.Evidence.Confidence)
	if err != nil {
		return err
	}
	centre, err := w.Quantile(0.5)
	if err != nil {
		return err
	}
	point, err := w.Quantile(p)
	if err != nil {
		return err
	}
	v.Mean, v.S = w.Mean(), w.SD()
	v.MeanMargin = l.Margin(v.Mean)
	v.setBound(b)
	v.Method = fmt.Sprintf("Weibull fit, shape %.3g, %d failures and %d running on; lower bound of the %.3g %% point with %g %% confidence by the normal approximation", w.Beta, failures, v.Censored, 100*p, 100*d.Evidence.Confidence)
	switch {
	case l.Value <= 0 || l.Meets(b):
		v.Word, v.Reason = quality.Pass, fmt.Sprintf("the bound %s is %s inside", v.show(b), v.diff(v.Margin))
	case !l.Meets(centre):
		v.Word, v.Reason = quality.Fail, fmt.Sprintf("half of the pieces fail before %s", v.show(centre))
	default:
		v.Word = quality.NotShown
		v.Reason = fmt.Sprintf("the median passes, the evidence does not: the %.3g %% point is %s, its bound %s", 100*p, v.show(point), v.show(b))
	}
	if failures < 10 {
		v.Reason += fmt.Sprintf("; %d failures are few for the approximation", failures)
	}
	v.Reason += "; the lower tail decides"
	return nil
}

// free judges by counting pieces, without a distribution.
func (v *Verdict) free(s Series, d Demand, why string) error {
	l := v.Limit
	out, unsure := 0, 0
	for _, r := range s.Readings {
		switch {
		case surelyOutside(r, l):
			out++
		case !surelyInside(r, l):
			unsure++
		}
	}
	worst, err := stat.FailingFraction(out+unsure, v.N, d.Evidence.Confidence)
	if err != nil {
		return err
	}
	best, err := stat.FailingFraction(out, v.N, d.Evidence.Confidence)
	if err != nil {
		return err
	}
	v.Method = fmt.Sprintf("count of pieces, limits of Clopper and Pearson at %g %%", 100*d.Evidence.Confidence)
	allowed := 1 - d.Evidence.Coverage
	counted := fmt.Sprintf("%d of %d outside", out, v.N)
	if unsure > 0 {
		counted += fmt.Sprintf(" and %d undecided", unsure)
	}
	counted += fmt.Sprintf(": at most %.3g %% outside with %g %% confidence", 100*worst.Upper, 100*d.Evidence.Confidence)
	if v.Need, err = stat.AcceptanceN(out+unsure, d.Evidence.Coverage, d.Evidence.Confidence); err != nil {
		return err
	}
	v.HasNeed = true
	switch {
	case worst.Upper <= allowed:
		v.Word, v.Reason = quality.Pass, counted
	case best.Lower > allowed || 2*out > v.N:
		v.Word, v.Reason, v.HasNeed = quality.Fail, counted, false
	default:
		v.Word = quality.NotShown
		v.Reason = fmt.Sprintf("%s; %s; %d pieces with no more outside would show it", why, counted, v.Need)
		return nil
	}
	v.Reason = why + "; " + v.Reason
	return nil
}
