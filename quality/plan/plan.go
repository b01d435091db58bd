package plan

import (
	"fmt"
	"math"

	"costrel/quality/stat"
)

// Form is how a test is accepted.
type Form string

// The forms.
const (
	None    Form = "no failure"      // of N pieces
	Bound   Form = "tolerance bound" // of the measured values against the limit
	Index   Form = "Ppk"             // at least 1.33
	Trend   Form = "trend"           // readings over time against the limit at the end
	Counted Form = "sampling plan"   // lots by attributes
)

// Object is what a test is for.
type Object string

// The objects.
const (
	Carbonated Object = "carbonated bottle"
	HotFilled  Object = "hot-filled bottle"
	Closure    Object = "closure"
)

// Test is one line of a qualification plan.
type Test struct {
	Object     Object `json:"object"`
	Name       string `json:"name"`
	Key        string `json:"key,omitempty"` // of the quantity in lab tables, where it is measured
	N          int    `json:"n"`
	Sets       int    `json:"sets"` // how many times N: directions, temperatures
	Form       Form   `json:"form"`
	Method     string `json:"method"`
	Source     string `json:"source"`     // of method and number
	Confidence string `json:"confidence"` // in the number: high, medium, low
	Caution    string `json:"caution,omitempty"`
}

// Tests returns the usual plan of an object. Numbers of pieces are common
// practice from memory unless the source says otherwise.
func Tests(o Object) ([]Test, error) {
	var out []Test
	for _, t := range all {
		if t.Object == o {
			out = append(out, t)
		}
	}
	if out == nil {
		return nil, fmt.Errorf("plan: no tests for %q", o)
	}
	return out, nil
}

const (
	guardWater = "Fill with water, not gas; closed guard, remote start."
	guardWarm  = "A warm carbonated pack is a charged vessel: guard it, chill before opening."
	guardBath  = "Dilute caustic and pressurised bottles: goggles, gloves, shield; bottles may rupture without warning."
	guardDrop  = "Fence the drop area; packs may burst or throw the closure."
	guardHot   = "Scalding liquid; inverted packs may leak."
)

var all = []Test{
	{Carbonated, "Dimensions and weights", "bottle.mass", 30, 1, Index, "five bottles of each of six cavities", "CommonPractice", "medium", ""},
	{Carbonated, "Capacity, brimful and fill level", "", 12, 1, Bound, "weigh with water at 20 °C", "CommonPractice", "medium", ""},
	{Carbonated, "Section weights and wall", "section.base.mass", 12, 1, Bound, "cut at the planes and weigh to 0.1 g; wall at four quadrants", "CommonPractice", "medium", ""},
	{Carbonated, "Top load, empty", "topload.empty", 12, 1, Bound, "aged at least 72 h, 510 mm/min to 3.75 mm", "ISBTTopLoad", "high", ""},
	{Carbonated, "Burst", "burst.pressure", 12, 1, Bound, "water, programmed ramp; record pressure, expansion and place", "PTIMethods", "medium", guardWater},
	{Carbonated, "Thermal stability", "growth.diameter", 12, 1, Bound, "carbonated, 37.8 °C and 85 % humidity for 24 h, measured again within 4 h", "PTIMethods", "medium", guardWarm},
	{Carbonated, "Stress crack, caustic bath", "stresscrack.time", 12, 1, Bound, "0.2 % NaOH, 531 kPa(g), 22 °C; 5 min pressurised before immersion; time to failure", "PTIMethods", "medium", guardBath},
	{Carbonated, "Stress crack, 28 days", "", 24, 1, None, "base dipped in agent, 37.8 °C and 85 % humidity, looked at daily", "PTIMethods", "medium", guardBath},
	{Carbonated, "Drop, base and side, 22 and 4 °C", "", 12, 4, None, "filled and closed, 1.5 to 2 m", "Brandau201610", "medium", guardDrop},
	{Carbonated, "Perpendicularity and base clearance", "perpendicularity", 12, 1, Bound, "turntable and dial gauge", "CommonPractice", "medium", ""},
	{Carbonated, "Carbonation retention", "drink.carbonation", 12, 1, Trend, "22 °C; 24 h, 1, 3, 6, 9 and 12 weeks", "Brandau201610", "medium", guardWarm},
	{Carbonated, "Line trial", "", 0, 1, Counted, "at rate: critical AQL 0.010 to 0.065, major 0.25 to 0.65, minor 1.5 to 4.0", "ISO2859", "medium", ""},

	{HotFilled, "Dimensions and weights", "bottle.mass", 30, 1, Index, "five bottles of each of six cavities", "CommonPractice", "medium", ""},
	{HotFilled, "Capacity before and after hot fill", "hotfill.shrinkage", 12, 1, Bound, "weigh with water at 20 °C before and after", "CommonPractice", "medium", guardHot},
	{HotFilled, "Section weights and wall", "section.base.mass", 12, 1, Bound, "cut at the planes and weigh to 0.1 g; wall at four quadrants", "CommonPractice", "medium", ""},
	{HotFilled, "Hot-fill simulation", "hotfill.vacuum", 12, 1, Bound, "82 to 95 °C, inverted, cooled; vacuum, panels and bore", "CommonPractice", "medium", guardHot},
	{HotFilled, "Top load, filled and cold", "topload.filled", 12, 1, Bound, "510 mm/min to 6.35 mm", "ISBTTopLoad", "medium", "A filled pack may burst or throw its closure under load."},
	{HotFilled, "Drop, base and side, 22 and 4 °C", "", 12, 4, None, "filled and closed, 1.5 to 2 m", "Brandau201610", "medium", guardDrop},
	{HotFilled, "Removal torque after 24 h", "torque.removal", 24, 1, Bound, "against both limits", "ASTMD2063", "medium", ""},

	{Closure, "Dimensions and weight", "", 32, 1, Index, "all cavities", "CommonPractice", "medium", ""},
	{Closure, "Secure seal", "", 12, 1, None, "pressure in steps, then blow-off", "CommonPractice", "low", guardWater},
	{Closure, "Temperature cycles", "closure.rise", 24, 1, Bound, "carbonated, cycles between 32 and 60 °C", "CommonPractice", "low", guardWarm},
	{Closure, "Stress crack, caustic", "", 24, 1, None, "filled packs in dilute caustic", "CommonPractice", "medium", guardBath},
	{Closure, "Ball impact, two temperatures", "", 12, 2, None, "286 g from 762 mm, ambient and cold", "Brandau201610", "medium", guardDrop},
	{Closure, "Drop", "", 24, 1, None, "filled and closed, 1.5 m", "Brandau201610", "medium", guardDrop},
	{Closure, "Carbonation retention", "drink.carbonation", 12, 1, Trend, "22 °C; 24 h, 1, 3, 6, 9 and 12 weeks", "Brandau201610", "medium", guardWarm},
	{Closure, "Removal torque after 24 h", "torque.removal", 24, 1, Bound, "against both limits; retention at 7, 14 and 28 days with at least 10", "ASTMD2063", "medium", "Closures may leave violently: point away, vent slowly."},
}

// Shows returns the reliability that n pieces without a failure show with the
// confidence,
//
//	R = (1-C)^(1/n)
//
// 12 of 12 show 77.9 % with 95 % confidence. n >= 1.
func Shows(n int, confidence float64) (float64, error) {
	if n < 1 || !(confidence > 0 && confidence < 1) {
		return 0, fmt.Errorf("plan: %d pieces at confidence %g", n, confidence)
	}
	return math.Pow(1-confidence, 1/float64(n)), nil
}

// Pieces returns the number of pieces for a requirement: without a failure
// where the form is None, and otherwise the smallest sample whose one-sided
// tolerance bound lies within the expected distance of the mean from the
// limit, in standard deviations. ok is false where no number would do.
func Pieces(f Form, e stat.Evidence, distance float64) (n int, ok bool, err error) {
	switch f {
	case None:
		n, err = stat.ZeroFailureN(e.Coverage, e.Confidence)
		return n, err == nil, err
	case Bound:
		return stat.Normal{N: 2, Mean: 0, S: 1}.NeededN(stat.Upper, distance, e)
	}
	return 0, false, fmt.Errorf("plan: no number of pieces follows from %q", f)
}

// Spread spreads n pieces over moulds or cavities as evenly as whole pieces
// allow, the larger shares spaced along the row. With fewer pieces than
// moulds some stay out; out lists them, from 0.
func Spread(n, moulds int) (share []int, out []int, err error) {
	if n < 1 || moulds < 1 {
		return nil, nil, fmt.Errorf("plan: %d pieces over %d moulds", n, moulds)
	}
	share = make([]int, moulds)
	for i := range moulds {
		// Differences of the rounded cumulative share.
		share[i] = (2*(i+1)*n+moulds)/(2*moulds) - (2*i*n+moulds)/(2*moulds)
		if share[i] == 0 {
			out = append(out, i)
		}
	}
	return share, out, nil
}
