package impact

import (
	"fmt"
	"math"

	"costrel/cite"
	"costrel/unit"
)

// RateFactor returns by how much the yield stress rises at a strain rate
// [1/s] over that of a slow tensile test [1]:
//
//	f = 1 + b log10(rate/reference)
//
// and 1 at and below the reference rate. The rate is in 0..1e4 1/s; a drop
// has some 5 to 100. Low and high follow the slope b, 0.05..0.15. From memory, no
// published source.
func RateFactor(rate float64) (value, low, high float64, err error) {
	if !(rate >= 0 && rate <= 1e4) {
		return 0, 0, 0, fmt.Errorf("impact: rate: strain rate %g 1/s outside 0..1e4 1/s", rate)
	}
	s := rateFactor(rate)
	return s.value, s.low, s.high, nil
}

func rateFactor(rate float64) span {
	decades := math.Max(0, math.Log10(rate/datum("rate", "reference").Value))
	b := datum("rate", "slope")
	return span{1 + b.Value*decades, 1 + b.Low*decades, 1 + b.High*decades}
}

// viscosityFactor is the share of its strength a gate of a given intrinsic
// viscosity [m³/kg] keeps; 0 is not known and counts as the reference.
func viscosityFactor(iv float64) span {
	ref := datum("gate", "viscosity.reference")
	if iv == 0 {
		return span{1, 1, 1}
	}
	least := datum("gate", "viscosity.least").Value
	const step = 0.001 // m³/kg, 0.01 dL/g
	loss := datum("gate", "viscosity.loss")
	keep := func(reference, loss float64) float64 {
		return math.Max(least, 1-loss*math.Max(0, reference-iv)/step)
	}
	return span{keep(ref.Value, loss.Value), keep(ref.High, loss.High), keep(ref.Low, loss.Low)}
}

func (s span) times(o span) span {
	return span{s.value * o.value, s.low * o.low, s.high * o.high}
}

// Rank is the reading of an index.
type Rank string

// The ranks, from the card of limits.
const (
	Lower  Rank = "lower risk"     // below 0.7: rank behind others, still test
	Test   Rank = "test first"     // 0.7 to 1
	Likely Rank = "failure likely" // from 1
)

func rankOf(index float64) Rank {
	switch {
	case index >= datum("index", "likely").Value:
		return Likely
	case index >= datum("index", "test").Value:
		return Test
	}
	return Lower
}

// Index is stress over strength with the range its factors leave. It ranks;
// it is no safety factor.
type Index struct {
	Value, Low, High float64
	Rank             Rank
	Label            string // always [Ranking]
}

// indexOf is (static + k dynamic)/strength at the middle and both ends.
func indexOf(static, dynamic float64, k cite.Datum, strength span) Index {
	v := (static + k.Value*dynamic) / strength.value
	least, most := static+k.Low*dynamic, static+k.High*dynamic // below 0 under vacuum
	return Index{
		Value: v,
		Low:   min(least/strength.high, least/strength.low),
		High:  max(most/strength.low, most/strength.high),
		Rank:  rankOf(v),
		Label: Ranking,
	}
}

// Limits of the gauge pressure [Pa].
const (
	pressureLow  = -1e5
	pressureHigh = 3e6
)

// Condition is the state in which a pack is dropped.
type Condition struct {
	Name        string
	Temperature unit.Temperature   // 0..40 °C
	Pressure    unit.GaugePressure // in the pack at that temperature; -1..30 bar
}

func (c Condition) check() error {
	if !(c.Pressure >= pressureLow && c.Pressure <= pressureHigh) {
		return fmt.Errorf("impact: %s: pressure %g Pa(g) outside %g..%g Pa(g)", c.Name, float64(c.Pressure), pressureLow, pressureHigh)
	}
	return nil
}

// UsualConditions returns the four states in which a pack is compared: 4 °C
// and 23 °C, each with its pressure and with none. The pressures are those of
// the drink at the two temperatures. Drop tests at 4 and 22 or 23 °C:
// Brandau201610.
func UsualConditions(cold, warm unit.GaugePressure) []Condition {
	return []Condition{
		{"cold, with pressure", unit.Celsius(4), cold},
		{"cold, no pressure", unit.Celsius(4), 0},
		{"warm, with pressure", unit.Celsius(23), warm},
		{"warm, no pressure", unit.Celsius(23), 0},
	}
}
