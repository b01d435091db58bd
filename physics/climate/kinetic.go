package climate

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Mean returns the mean temperature of the lane by time [K].
func (c Course) Mean() unit.Temperature {
	return unit.Temperature(c.mean(func(s State) float64 { return float64(s.Temperature) }))
}

// MeanTo returns the mean temperature by time from the start to t [s], at most
// the whole lane; of a calmed day the mean of its hours, not the kinetic one.
func (c Course) MeanTo(t float64) unit.Temperature {
	cut := Course{ambient: c.ambient}
	for _, s := range c.lane.Segments {
		if s.Start >= t {
			break
		}
		s.Duration = math.Min(s.Duration, t-s.Start)
		for i, p := range s.Steps {
			if p.Start >= s.Duration {
				s.Steps = s.Steps[:i]
				break
			}
		}
		cut.lane.Segments = append(cut.lane.Segments, s)
	}
	return unit.Temperature(cut.mean(func(st State) float64 {
		return float64(st.Temperature) - float64(cut.lane.Segments[st.Segment].Raised)
	}))
}

// MeanKinetic returns the constant temperature [K] at which an activated
// process proceeds as far as over the lane.
//
//	Tk = (E/R) / -ln( mean of exp(-E/(R T)) )
//
// E is the activation energy [J/mol], 1..300 kJ/mol; about 45 for the loss of
// carbonation of a PET bottle and 33 for its oxygen. Source: Haynes1971.
func (c Course) MeanKinetic(e float64) (unit.Temperature, error) {
	if err := checkEnergy(e); err != nil {
		return 0, err
	}
	if len(c.lane.Segments) == 0 {
		return 0, fmt.Errorf("climate: mean kinetic temperature: no lane")
	}
	// Relative to the mean: the exponentials stay near one.
	ref := float64(c.Mean())
	k := e / unit.GasConstant
	m := c.mean(func(s State) float64 { return math.Exp(-k * (1/float64(s.Temperature) - 1/ref)) })
	return unit.Temperature(1 / (1/ref - math.Log(m)/k)), nil
}

// Acceleration returns the factor by which an activated process runs faster
// over the lane than at the reference temperature: the mean of
// exp(-E/R (1/T - 1/T_ref)). E as in [Course.MeanKinetic].
func (c Course) Acceleration(e float64, ref unit.Temperature) (float64, error) {
	if !(ref >= LowT && ref <= HighT) {
		return 0, fmt.Errorf("climate: acceleration: reference %g K outside %g..%g K", float64(ref), float64(LowT), float64(HighT))
	}
	t, err := c.MeanKinetic(e)
	if err != nil {
		return 0, err
	}
	return math.Exp(-e / unit.GasConstant * (1/float64(t) - 1/float64(ref))), nil
}

func checkEnergy(e float64) error {
	if !(e >= 1e3) || e > 300e3 {
		return fmt.Errorf("climate: mean kinetic temperature: activation energy %g kJ/mol outside 1..300 kJ/mol", e/1e3)
	}
	return nil
}

// mean averages f over the lane: read off where nothing varies, four-point
// Gauss panels no longer than a sixth of a day or a fiftieth of a year where a
// cycle runs.
func (c Course) mean(f func(State) float64) float64 {
	x := [...]float64{0.339981043584856265, 0.861136311594052575}
	w := [...]float64{0.652145154862546143, 0.347854845137453857}
	var sum, total float64
	for i := range c.lane.Segments {
		s := &c.lane.Segments[i]
		total += s.Duration
		if len(s.Steps) > 0 {
			for j, p := range s.Steps {
				end := s.Duration
				if j+1 < len(s.Steps) {
					end = s.Steps[j+1].Start
				}
				sum += (end - p.Start) * f(c.in(i, p.Start))
			}
			continue
		}
		panel := s.Duration
		if s.Season != (Cycle{}) {
			panel = min(panel, Year/50)
		}
		if s.Daily != (Cycle{}) {
			panel = min(panel, Day/6)
		}
		n := math.Ceil(s.Duration / panel)
		h := s.Duration / n / 2
		for k := 0.0; k < n; k++ {
			mid := (2*k + 1) * h
			for q := range x {
				sum += h * w[q] * (f(c.in(i, mid-h*x[q])) + f(c.in(i, mid+h*x[q])))
			}
		}
	}
	if total == 0 {
		return 0
	}
	return sum / total
}
