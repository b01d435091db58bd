package hotfill

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Lethality is a scale of heat treatment: one second at Reference counts one
// second, and ten times as much for each Z above.
type Lethality struct {
	Name      string
	Reference unit.Temperature
	Z         unit.TemperatureDiff
	Source    string
	Note      string
}

// Scales returns the scales in use. The first is the pasteurisation unit of
// beer; PU are minutes on it.
func Scales() []Lethality {
	return []Lethality{
		// 10^(1/z) = 1.393
		{"PU60", unit.Celsius(60), unit.TemperatureDiff(1 / math.Log10(1.393)), "DelVecchio1951", "1.393^(T-60), z = 6.946 K"},
		{"PU60 z7", unit.Celsius(60), 7, "DelVecchio1951", "the same with z rounded to 7 K"},
		{"P70", unit.Celsius(70), 10, "CommonPractice", "acid drinks, vegetative germs; from memory"},
		{"P80", unit.Celsius(80), 10, "CommonPractice", "drinks with a risk of spores"},
		{"F93", unit.Celsius(93.3), 8.9, "CommonPractice", "acidified foods; from memory"},
		{"F121", unit.Celsius(121.1), 10, "CommonPractice", "low acid, sterilisation; from memory"},
	}
}

// Scale returns the scale of the given name.
func Scale(name string) (Lethality, error) {
	for _, l := range Scales() {
		if l.Name == name {
			return l, nil
		}
	}
	return Lethality{}, fmt.Errorf("hotfill: lethality: no scale named %q", name)
}

// Rate returns 10^((T - Reference)/Z), the weight of a time at T [1].
func (l Lethality) Rate(t unit.Temperature) float64 {
	return math.Pow(10, float64(t-l.Reference)/float64(l.Z))
}

func (l Lethality) check() error {
	if !(l.Z >= 1) || l.Z > 100 || !(l.Reference >= 273.15) || l.Reference > 473.15 {
		return refuse("lethality", "z", float64(l.Z), "K", "1..100 K with a reference of ‹0..200 °C›", "give the scale's own z and reference")
	}
	return nil
}

// treated is the highest temperature of a treatment [K].
const treated unit.Temperature = 423.15

func treatment(place string, t unit.Temperature) error {
	if !(t >= 263.15 && t <= treated) {
		return refuse(place, "temperature", t.Celsius(), "°C", "‹-10..150 °C›", "check the unit")
	}
	return nil
}

// Reading is a temperature at a time [s], as a recorder in the pack gives it.
type Reading struct {
	Time        float64
	Temperature unit.Temperature
}

// longest is the longest time that a record may hold [s].
const longest = 1e9

// Profile returns the equivalent time at the reference temperature of a
// recorded course [s], joined by straight lines. On each line the integral is
// exact:
//
//	dt (L2 - L1)/ln(L2/L1), L = 10^((T - Tref)/z)
//
// Divide by 60 for PU. At least two readings with rising times, -10..150 °C.
func (l Lethality) Profile(readings []Reading) (float64, error) {
	if err := l.check(); err != nil {
		return 0, err
	}
	if len(readings) < 2 {
		return 0, refuse("lethality", "readings", float64(len(readings)), "", "2", "give the course of the temperature")
	}
	k := math.Ln10 / float64(l.Z)
	var sum float64
	for i, r := range readings {
		if err := treatment(fmt.Sprintf("lethality: reading %d", i+1), r.Temperature); err != nil {
			return 0, err
		}
		if math.IsNaN(r.Time) || math.Abs(r.Time) > longest {
			return 0, refuse(fmt.Sprintf("lethality: reading %d", i+1), "time", r.Time/60, "min", "-2e7..2e7 min", "check the unit")
		}
		if i == 0 {
			continue
		}
		dt := r.Time - readings[i-1].Time
		if !(dt > 0) {
			return 0, refuse(fmt.Sprintf("lethality: reading %d", i+1), "time", r.Time/60, "min", fmt.Sprintf("more than %.6g min, the reading before", readings[i-1].Time/60), "sort the readings")
		}
		sum += dt * l.Rate(readings[i-1].Temperature) * meanExp(k*float64(r.Temperature-readings[i-1].Temperature))
	}
	return sum, nil
}

// meanExp returns the mean of exp over 0..x: (exp(x) - 1)/x.
func meanExp(x float64) float64 {
	if math.Abs(x) < 1e-12 {
		return 1
	}
	return math.Expm1(x) / x
}

// Hold returns the equivalent time of a constant temperature [s].
func (l Lethality) Hold(t unit.Temperature, duration float64) (float64, error) {
	if !(duration > 0) || duration > longest {
		return 0, refuse("lethality", "duration", duration/60, "min", "0..2e7 min", "check the unit")
	}
	return l.Profile([]Reading{{0, t}, {duration, t}})
}

// Cooling returns the equivalent time of an exponential course from one
// temperature towards another [s]:
//
//	T(t) = to + (from - to) exp(-t/tau), t = 0..duration
//
// It is what a hot-filled pack goes through between hold and cold. In closed
// form, with a = ln 10 (from - to)/z and b = a exp(-duration/tau),
//
//	tau 10^((to - Tref)/z) [duration/tau + sum of (aⁿ - bⁿ)/(n n!), n = 1, 2 ...]
//
// the series of the exponential integral; a pack that warms (a < 0), where its
// terms cancel, by Gauss panels of tau/50 or less. tau and duration 1..1e6 s.
func (l Lethality) Cooling(from, to unit.Temperature, tau, duration float64) (float64, error) {
	if err := l.check(); err != nil {
		return 0, err
	}
	for _, t := range [...]unit.Temperature{from, to} {
		if err := treatment("lethality: cooling", t); err != nil {
			return 0, err
		}
	}
	if !(tau >= 1) || tau > 1e6 || !(duration >= 1) || duration > 1e6 || duration > 2000*tau {
		return 0, refuse("lethality: cooling", "time constant", tau, "s", "1..1e6 s, with a duration of 1..1e6 s and at most 2000 time constants", "check the unit")
	}
	if a := math.Ln10 * float64(from-to) / float64(l.Z); a >= 0 {
		return tau * l.Rate(to) * (duration/tau + einDifference(a, a*math.Exp(-duration/tau))), nil
	}
	x := [...]float64{0.339981043584856265, 0.861136311594052575}
	w := [...]float64{0.652145154862546143, 0.347854845137453857}
	n := math.Ceil(50 * duration / tau)
	h := duration / n / 2
	at := func(t float64) float64 {
		return l.Rate(to + unit.Temperature(float64(from-to)*math.Exp(-t/tau)))
	}
	var sum float64
	for k := 0.0; k < n; k++ {
		mid := (2*k + 1) * h
		for q := range x {
			sum += h * w[q] * (at(mid-h*x[q]) + at(mid+h*x[q]))
		}
	}
	return sum, nil
}

// einDifference returns the sum of (aⁿ - bⁿ)/(n n!) for a >= b >= 0: Ein(-b) - Ein(-a)
// of the exponential integral. It ends where a term no longer counts.
func einDifference(a, b float64) float64 {
	sum, pa, pb := 0.0, 1.0, 1.0
	for n := 1.0; ; n++ {
		pa, pb = pa*a/n, pb*b/n
		sum += (pa - pb) / n
		if !(pa > 1e-17*n*sum) {
			return sum
		}
	}
}
