package shell

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Warmth gives the factors of temperature on stiffness and strength, and on
// creep, relative to 23 °C.
type Warmth struct {
	At       []unit.Temperature // rising
	Factor   []float64          // of stiffness and strength
	Doubling float64            // temperature rise that doubles creep [K]
}

// DefaultWarmth returns the table of the data card; heatset for a wall set by
// a hot mould. From memory, confidence low.
func DefaultWarmth(heatset bool) Warmth {
	w := Warmth{Doubling: datum("warm", "creep.doubling").Value}
	for _, k := range []struct {
		key string
		c   float64
	}{{"t23", 23}, {"t38", 38}, {"t50", 50}, {"t60", 60}, {"t70", 70}, {"t80", 80}} {
		f := datum("warm", k.key).Value
		if set := datum("warm", "t80.set").Value; heatset && k.c == 80 {
			f = set
		} else if heatset && k.c == 70 {
			f = 0.5 * (set + datum("warm", "t60").Value) // straight between 60 and 80 °C, chosen
		}
		w.At, w.Factor = append(w.At, unit.Celsius(k.c)), append(w.Factor, f)
	}
	return w
}

// Factors returns the factor on stiffness and strength and that on creep at a
// temperature, with a warning outside the table, where its end value holds
// below and an error above.
func (w Warmth) Factors(t unit.Temperature) (soft, creep float64, warning string, err error) {
	n := len(w.At)
	if n < 1 || len(w.Factor) != n || !(w.Doubling > 0) {
		return 0, 0, "", fmt.Errorf("shell: warmth: table of %d temperatures and %d factors, doubling %g K", n, len(w.Factor), w.Doubling)
	}
	if !(t > 0) || t > w.At[n-1] {
		return 0, 0, "", fmt.Errorf("shell: warmth: ‹%.1f °C› above the table, which ends at ‹%.1f °C›", t.Celsius(), w.At[n-1].Celsius())
	}
	creep = math.Exp2(float64(t-unit.Celsius(23)) / w.Doubling)
	if t < w.At[0] {
		return w.Factor[0], creep, unit.Quote(unit.TemperaturePoint, float64(t), 3) + " below the table, which begins at " + unit.Quote(unit.TemperaturePoint, float64(w.At[0]), 3) + ": its first factor is used", nil
	}
	for i := 1; i < n; i++ {
		if t <= w.At[i] {
			x := float64(t-w.At[i-1]) / float64(w.At[i]-w.At[i-1])
			return w.Factor[i-1] + x*(w.Factor[i]-w.Factor[i-1]), creep, "", nil
		}
	}
	return w.Factor[n-1], creep, "", nil
}
