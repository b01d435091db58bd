package calibrate

import (
	"fmt"
	"math"

	"costrel/num/dist"
	"costrel/unit"
)

// What one reading scatters by, filling and laboratory together, where the
// table does not tell [kg/m³]: 0.03 vol as bottles of one pull usually do, and
// 0.01 vol that no series of readings stays below for long, for the meter alone
// does not repeat better. Common practice, both.
const (
	usualSigma = 0.03 * unit.VolumeCO2
	leastSigma = 0.01 * unit.VolumeCO2
)

// From enough degrees of freedom on a scatter is that of the readings; the usual
// one counts as known from as many. Repeats is how many degrees of freedom the
// bottles of the same pull must leave for a test of the curve that can fail.
// Chosen for this project.
const (
	enough  = 10
	repeats = 3
)

// usual is the scatter of a reading where the readings do not tell it.
func (s Setup) usual() float64 {
	if s.Sigma > 0 {
		return s.Sigma
	}
	return usualSigma
}

// weigh sets the scatter that the intervals count with, as [PullFit.counted].
func (f *PullFit) weigh() error {
	var err error
	f.sigma, f.df, err = f.counted(f.Freedom, 0.95)
	if f.sigma != f.Sigma {
		f.Assumed = f.sigma
	}
	return err
}

// counted returns the scatter of a reading that an interval counts with [kg/m³],
// and its degrees of freedom: that of the readings about the curve, but where
// these are few the usual one too, whichever gives the wider interval. Three
// bottles may lie on a curve by chance.
func (f *PullFit) counted(freedom int, confidence float64) (sigma, df float64, err error) {
	df = float64(freedom)
	floor, known := leastSigma, df
	if freedom < enough {
		floor, known = f.s.usual(), enough
	}
	own, err := dist.StudentQuantile((1+confidence)/2, df)
	if err != nil {
		return 0, 0, fmt.Errorf("calibrate: pulls: %w", err)
	}
	least, err := dist.StudentQuantile((1+confidence)/2, known)
	if err != nil {
		return 0, 0, fmt.Errorf("calibrate: pulls: %w", err)
	}
	if own*f.Sigma < least*floor {
		return floor, known, nil
	}
	return f.Sigma, df, nil
}

// misfit tests the pulls about the curve against the bottles about their pulls;
// where too few are repeated, the readings about the curve against what bottles
// usually scatter by, which can only warn.
func (f *PullFit) misfit(within float64, freedom int) error {
	d1 := len(f.s.Pulls) - 2
	f.Misfit = math.NaN()
	switch {
	case d1 < 1:
		f.Untested = "a curve passes through two pulls whatever they say; pull at a third time"
	case freedom < 1:
		f.Untested = "no pull has two bottles; open two or more at each"
	case freedom < repeats || within == 0:
		f.Untested = fmt.Sprintf("the bottles of the same pull leave %d degree(s) of freedom and scatter by %.2g vol, too little to hold the curve against; open more at each pull", freedom, f.Bottles/unit.VolumeCO2)
	}
	if f.Untested != "" {
		return f.suspect()
	}
	total := 0.0
	for _, v := range f.Residuals {
		total += v * v
	}
	lack := math.Max(total-within, 0)
	p, err := dist.FSurvival(lack/float64(d1)/(within/float64(freedom)), float64(d1), float64(freedom))
	if err != nil {
		return fmt.Errorf("calibrate: pulls: %w", err)
	}
	f.Misfit = p
	if f.Misfit < 0.05 && f.Misfit >= worstMisfit {
		f.Warnings = append(f.Warnings, fmt.Sprintf("calibrate: pulls: the curve misses the pulls by more than the bottles scatter (chance %.2g): the interval is too narrow", f.Misfit))
	}
	return nil
}

// suspect looks at readings that lie farther from the curve than bottles
// usually do: without repeats nothing tells a bad curve from a bad reading, but
// no filler and no laboratory scatters as much as [filled].
func (f *PullFit) suspect() error {
	beyond := func(p, sigma float64) (bool, error) {
		most, err := dist.ChiSquaredQuantile(p, float64(f.Freedom))
		if err != nil {
			return false, fmt.Errorf("calibrate: pulls: %w", err)
		}
		return float64(f.Freedom)*f.Sigma*f.Sigma > most*sigma*sigma, nil
	}
	var err error
	if f.far, err = beyond(1-worstMisfit, filled); err != nil || f.far {
		return err
	}
	odd, err := beyond(0.95, f.s.usual())
	if odd {
		f.Warnings = append(f.Warnings, fmt.Sprintf("calibrate: pulls: the readings lie %.2g vol off the curve (standard deviation), where bottles usually scatter by %.2g vol (common practice): the curve may not follow them; check temperature, closures and readings before you rely on it", f.Sigma/unit.VolumeCO2, f.s.usual()/unit.VolumeCO2))
	}
	return err
}
