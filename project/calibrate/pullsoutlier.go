package calibrate

import (
	"fmt"

	"costrel/quality/stat"
	"costrel/unit"
)

// Outlier is a reading that the test for outliers marks: a reason to look at
// the bottle and at the laboratory's notes, never to drop it silently.
type Outlier struct {
	Time     float64 // of its pull [s]
	Value    float64 // [kg/m³]
	Off      float64 // from the curve [kg/m³]
	G        float64 // from the mean in standard deviations of the readings then left
	Critical float64 // what G would exceed by chance once in twenty tables
	pull, at int
}

// The level of the test, and from how many readings on it looks for more than
// one outlier: Rosner's test holds from 15 (Rosner1983).
const (
	outlierLevel = 0.05
	outlierMany  = 15
)

// suspects finds the readings that lie too far from the curve: by Grubbs' test,
// of many readings by its generalised form for up to a tenth of them.
func (f *PullFit) suspects() error {
	n := len(f.Residuals)
	if n < 4 {
		return nil // the curve leaves nothing to tell one from the others
	}
	most := 1
	if n >= outlierMany {
		most = max(1, n/10)
	}
	steps, count, err := stat.ESD(f.Residuals, most, outlierLevel)
	if err != nil {
		return fmt.Errorf("calibrate: pulls: %w", err)
	}
	for _, s := range steps[:count] {
		k := s.Index
		for i, p := range f.s.Pulls {
			if k >= len(p.Values) {
				k -= len(p.Values)
				continue
			}
			f.Outliers = append(f.Outliers, Outlier{Time: p.Time, Value: p.Values[k], Off: f.Residuals[s.Index], G: s.G, Critical: s.Critical, pull: i, at: k})
			break
		}
	}
	for _, o := range f.Outliers {
		f.Warnings = append(f.Warnings, fmt.Sprintf("calibrate: pulls: the reading of %.4g vol at %.3g d lies %+.2g vol off the curve, %.2g standard deviations where chance gives %.2g (Grubbs, 5 %%): look at that bottle and at the notes of the laboratory; it counts in the fit like the others", o.Value/unit.VolumeCO2, o.Time/day, o.Off/unit.VolumeCO2, o.G, o.Critical))
	}
	return nil
}

// Without returns the fit of the pulls less the outliers, to be shown beside
// the fit of all. Errors as of [FitPulls].
func (f *PullFit) Without() (*PullFit, error) {
	s := f.s
	s.Pulls = nil
	for i, p := range f.s.Pulls {
		q := Pull{Time: p.Time}
		for k, v := range p.Values {
			out := false
			for _, o := range f.Outliers {
				out = out || o.pull == i && o.at == k
			}
			if !out {
				q.Values = append(q.Values, v)
			}
		}
		if len(q.Values) > 0 {
			s.Pulls = append(s.Pulls, q)
		}
	}
	g, err := FitPulls(s)
	if err != nil {
		return nil, err
	}
	g.along = f.along
	return g, nil
}
