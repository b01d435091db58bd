package lab

import (
	"fmt"

	"costrel/quality"
	"costrel/quality/stat"
)

// CountDemand is a requirement on a number of failures.
type CountDemand struct {
	Most        int     // failures allowed in the sample; 0 for "none"
	Reliability float64 // fraction that must survive; 0 = only the count is asked for
	Confidence  float64 // of the limit on the failing fraction, one-sided
}

// CountVerdict is what a number of failures says.
type CountVerdict struct {
	Name     string        `json:"name"`
	Word     quality.Word  `json:"verdict"`
	Fraction stat.Fraction `json:"fraction"`
	Need     int           `json:"need"` // tests that would show the reliability with as many failures
	HasNeed  bool          `json:"has_need"`
	Reason   string        `json:"reason"`
}

// JudgeCount returns the verdict of failures in n pieces.
//
// Fail: more failures than allowed. Pass: no more, and where a reliability is
// asked for, the upper limit of Clopper and Pearson on the failing fraction
// is within it. Not shown: the count passes, the reliability is not shown. The
// limit is printed also where no reliability is asked for: none of 24 still
// allows 11.7 %. Source: ClopperPearson1934.
func JudgeCount(name string, failures, n int, d CountDemand) (CountVerdict, error) {
	if d.Confidence == 0 {
		d.Confidence = stat.Usual().Confidence
	}
	if d.Most < 0 || !(d.Reliability >= 0 && d.Reliability < 1) {
		return CountVerdict{}, fmt.Errorf("lab: %s: %d failures allowed, reliability %g", name, d.Most, d.Reliability)
	}
	f, err := stat.FailingFraction(failures, n, d.Confidence)
	if err != nil {
		return CountVerdict{}, fmt.Errorf("lab: %s: %w", name, err)
	}
	v := CountVerdict{Name: name, Fraction: f}
	v.Reason = fmt.Sprintf("%d of %d, allowed %d; %g %% upper limit on the failing fraction %.1f %%", failures, n, d.Most, 100*d.Confidence, 100*f.Upper)
	if d.Reliability > 0 {
		if v.Need, err = stat.AcceptanceN(failures, d.Reliability, d.Confidence); err != nil {
			return CountVerdict{}, fmt.Errorf("lab: %s: %w", name, err)
		}
		v.HasNeed = true
	}
	switch {
	case failures > d.Most:
		v.Word, v.HasNeed = quality.Fail, false
	case d.Reliability > 0 && f.Upper > 1-d.Reliability:
		v.Word = quality.NotShown
		v.Reason += fmt.Sprintf("; reliability %g needs %d tests with %d failures", d.Reliability, v.Need, failures)
	default:
		v.Word = quality.Pass
	}
	return v, nil
}

// Count returns the number of pieces of a series of counts (0 or 1 each) that
// failed, and the number of pieces.
func (s Series) Count() (failures, n int, err error) {
	for _, r := range s.Readings {
		if r.Censor != Exact || r.Value != 0 && r.Value != 1 {
			return 0, 0, fmt.Errorf("lab: %s: line %d: %q is neither 0 nor 1", s.Name(), r.Line, r.Text)
		}
		failures += int(r.Value)
	}
	return failures, len(s.Readings), nil
}
