package resin

import (
	"fmt"
	"math"
)

// Pull is a test of a material point: stretched at a constant nominal rate
// from rest under plane stress.
type Pull struct {
	Law  HotLaw
	T    float64 // [K], at the start
	Rate float64 // nominal rate of the first direction [1/s]
	// Mode is the stretch of the second direction: 1 as the first (equal
	// biaxial), 0 held (constant width), -0.5 free (uniaxial). In between the
	// log strains keep this ratio.
	Mode    float64
	Stretch float64 // at the end
	Step    float64 // time step [s]
	// HeatCapacity is rho cp [J/(m³ K)]; 0 keeps the temperature.
	HeatCapacity float64
}

// PullPoint is one point of a curve.
type PullPoint struct {
	Time, Stretch float64    // [s], first direction
	Stress        [2]float64 // true stress in the plane [Pa]
	Net           float64    // greatest network stretch
	T             float64    // [K]
	Work          float64    // [J/m³]
	Stored        float64    // [J/m³]
}

const pullSteps = 5_000_000

// Run returns the curve with one point a step, the first at rest, and the
// warnings of the law.
func (p Pull) Run() ([]PullPoint, []string, error) {
	switch {
	case p.Law == nil:
		return nil, nil, fmt.Errorf("resin: pull: no law")
	case !(p.T >= 333 && p.T <= 423):
		return nil, nil, fmt.Errorf("resin: pull: temperature ‹%.1f °C› outside ‹60..150 °C›", p.T-273.15)
	case !(p.Rate > 0 && p.Rate <= 1e5):
		return nil, nil, fmt.Errorf("resin: pull: rate %g 1/s outside 0..1e5 1/s", p.Rate)
	case !(p.Mode >= -0.5 && p.Mode <= 1):
		return nil, nil, fmt.Errorf("resin: pull: mode %g outside -0.5..1", p.Mode)
	case !(p.Stretch > 1 && p.Stretch <= 8):
		return nil, nil, fmt.Errorf("resin: pull: stretch %g outside 1..8", p.Stretch)
	case !(p.Step > 0) || math.IsInf(p.Step, 0):
		return nil, nil, fmt.Errorf("resin: pull: step %g s not above 0", p.Step)
	case !(p.HeatCapacity >= 0):
		return nil, nil, fmt.Errorf("resin: pull: heat capacity %g J/(m³ K) below 0", p.HeatCapacity)
	}
	n := int(math.Ceil((p.Stretch - 1) / (p.Rate * p.Step) * (1 - 1e-12)))
	if n < 1 || n > pullSteps {
		return nil, nil, fmt.Errorf("resin: pull: %d steps outside 1..%d: change step %g s", n, pullSteps, p.Step)
	}
	dt := (p.Stretch - 1) / p.Rate / float64(n)
	s := Rest()
	out := make([]PullPoint, 1, n+1)
	out[0] = PullPoint{Stretch: 1, Net: 1, T: p.T}
	var step HotStep
	var ans HotResponse
	T, work := p.T, 0.0
	for i := range n {
		a, b := 1+p.Rate*dt*float64(i), 1+p.Rate*dt*float64(i+1)
		d := math.Log(b / a)
		p.Law.Prepare(&step, &s, T, dt, p.Rate, p.Mode)
		to := s
		p.Law.Update(&step, &s, d, p.Mode*d, &to, &ans)
		dw := ans.Stress[0]*d + ans.Stress[1]*p.Mode*d
		work += dw
		if p.HeatCapacity > 0 {
			T += dw / p.HeatCapacity
		}
		s = to
		if !finite(ans.Stress[0]) || !finite(ans.Stress[1]) {
			return nil, nil, fmt.Errorf("resin: pull: stress not finite at stretch %.3f", b)
		}
		out = append(out, PullPoint{Time: float64(i+1) * dt, Stretch: b, Stress: ans.Stress, Net: s.NetMax, T: T, Work: work, Stored: p.Law.Stored(&s, T)})
	}
	return out, p.Law.Range(p.T, p.Rate), nil
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// NaturalStretch returns the equal-biaxial stretch from which a balloon of the
// law must be pushed harder again: the place past the pressure maximum where
// p ~ sigma/lambda³ turns up, at constant T [K] and nominal rate [1/s]. Its
// square is the natural areal stretch. Below it a wall stretches unevenly,
// above it the wall evens itself out. A law that never hardens up to the
// stretch 4.5 is an error.
func NaturalStretch(law HotLaw, T, rate float64) (stretch float64, warnings []string, err error) {
	curve, warn, err := Pull{Law: law, T: T, Rate: rate, Mode: 1, Stretch: 4.5, Step: 0.002 / rate}.Run()
	if err != nil {
		return 0, nil, err
	}
	p := func(i int) float64 {
		return curve[i].Stress[0] / (curve[i].Stretch * curve[i].Stretch * curve[i].Stretch)
	}
	top := 1
	for i := 2; i+1 < len(curve); i++ {
		if p(i) > p(top) && curve[i].Stretch < 2 {
			top = i
		}
	}
	for i := top + 1; i+1 < len(curve); i++ {
		if a, b, c := p(i-1), p(i), p(i+1); b < a && b <= c {
			// vertex of the parabola through three points
			h := curve[i+1].Stretch - curve[i].Stretch
			return curve[i].Stretch + h*(a-c)/(2*(a-2*b+c)), warn, nil
		}
	}
	return 0, nil, fmt.Errorf("resin: natural stretch: law %s does not harden at ‹%.1f °C› and %.3g 1/s up to stretch 4.5: cooler or faster", law.Name(), T-273.15, rate)
}
