package permeation

import (
	"math"
	"strings"
	"testing"

	"costrel/physics/climate"
	"costrel/physics/drink"
	"costrel/unit"
)

func filled(t testing.TB, nitrogen float64) Pack {
	t.Helper()
	p, err := brim(nitrogen)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// TestFullByHand: with all gas dissolved the wall sets the pressure,
//
//	P = pa - (V - m/rho)/kappa,  p_i = n_i/(m k_i),
//
// 20 kPa of vacuum here; and where the gas would first stand against it, at
// sum of p_i + p_w = P, the gas space begins without a jump.
func TestFullByHand(t *testing.T) {
	at := unit.Celsius(22)
	room := steps(t, []float64{22}, []float64{1})
	run := func(nitrogen float64) (Point, *Life) {
		l, err := filled(t, nitrogen).Run(room, 0, Options{Cells: 4})
		if err != nil {
			t.Fatal(err)
		}
		p, err := l.At(0)
		if err != nil {
			t.Fatal(err)
		}
		return p, l
	}
	p, l := run(1e-4)
	ko, kn := drink.HenryOxygen(at), drink.HenryNitrogen(at)
	for what, x := range map[string][2]float64{
		"vacuum": {-float64(p.Gauge), 20e3}, "oxygen": {p.Partial[Oxygen], 3e-5 / (0.498 * ko)}, "nitrogen": {p.Partial[Nitrogen], 1e-4 / (0.498 * kn)},
	} {
		if math.Abs(x[0]/x[1]-1) > 1e-9 {
			t.Errorf("%s %.10g Pa, by hand %.10g", what, x[0], x[1])
		}
	}
	if when, ok := l.Full(day); !ok || when != 0 || p.Headspace != 0 {
		t.Errorf("full from %g s, %v, gas space %g m³", when, ok, p.Headspace)
	}
	// The bubble point.
	edge := 0.498 * kn * (float64(unit.Atm) - 20e3 - float64(drink.VapourPressure(at)) - p.Partial[Oxygen])
	last := Point{}
	for i, by := range []float64{1 - 1e-7, 1 + 1e-7, 1.05} {
		q, l := run(edge * by)
		if _, ok := l.Full(0); ok != (i == 0) || (q.Headspace > 0) == ok {
			t.Errorf("%g of the gas at the bubble point: full %v, gas space %g m³", by, ok, q.Headspace)
		}
		if i == 1 && (math.Abs(float64(q.Pressure-last.Pressure)) > 0.1 || q.Headspace > 1e-9 || math.Abs(q.Partial[Nitrogen]-last.Partial[Nitrogen]) > 0.1) {
			t.Errorf("a jump at the bubble point: %+v and %+v", last, q)
		}
		last = q
	}
}

// TestFullThreeYears: a pack that is full when closed takes up air until a gas
// space opens, and keeps every mole on the way; warmed it stands under the
// pressure of its wall.
func TestFullThreeYears(t *testing.T) {
	p := filled(t, 1e-4)
	p.Uptake = Uptake{Rate: 0.01 / day, Acid: 1e-3, Stoichiometry: 2}
	c := steps(t, []float64{22, 38, 5, 22}, []float64{30, 1, 60, 1004})
	for _, method := range []string{"ESDIRK4", "TR-BDF2"} {
		l, err := p.Run(c, 0, Options{Method: method})
		if err != nil {
			t.Fatal(err)
		}
		for g, b := range l.Balance() {
			if !(math.Abs(b) < 1e-10) {
				t.Errorf("%s: %v: %g not accounted for", method, Gas(g), b)
			}
		}
		points, err := l.Series([]float64{0, 15 * day, 1095 * day})
		if err != nil {
			t.Fatal(err)
		}
		if points[0].Headspace != 0 || points[1].Headspace != 0 || !(points[2].Headspace > 1e-6) {
			t.Errorf("%s: gas space %g, %g, %g m³", method, points[0].Headspace, points[1].Headspace, points[2].Headspace)
		}
		if l.Refused > l.Steps {
			t.Errorf("%s: %d steps refused of %d", method, l.Refused, l.Steps)
		}
	}
	p.Volume -= 21e-6
	l, err := p.Run(steps(t, []float64{22}, []float64{1}), 0, Options{})
	if err != nil {
		t.Fatal(err)
	}
	q, err := l.At(0)
	if want := 1e-6 / (p.Volume * p.Growth.Elastic); err != nil || math.Abs(float64(q.Gauge)/want-1) > 1e-9 {
		t.Errorf("1 mL too much stands at %g Pa, by hand %g, %v", float64(q.Gauge), want, err)
	}
	p.Growth.Elastic, p.Growth.Terms = 0, nil
	if _, err := p.Run(steps(t, []float64{22}, []float64{1}), 0, Options{}); err == nil || !strings.Contains(err.Error(), "fill less") {
		t.Errorf("1 mL too much in a rigid bottle: %v", err)
	}
}

// TestFullAtAmbient: gas from outside brings a full bottle to where a gas space
// opens just as its wall comes back to ambient pressure, where it bends: the
// steps find through.
func TestFullAtAmbient(t *testing.T) {
	lane := climate.Lane{Name: "yard", Segments: []climate.Segment{
		{Duration: 73.5 * day, Temperature: unit.Celsius(40.2), Humidity: 0.5, Altitude: 2189, Daily: climate.Cycle{Temperature: 3.59, Peak: 15 * 3600}},
	}}
	for _, calm := range []bool{false, true} {
		if calm {
			var err error
			if lane, err = lane.Calm(33e3); err != nil {
				t.Fatal(err)
			}
		}
		c, err := lane.Course()
		if err != nil {
			t.Fatal(err)
		}
		for i := range 13 {
			p := filled(t, 1.94e-4)
			p.Contents.Oxygen, p.Uptake.Rate = 8e-5, 2.9/day
			p.Volume -= float64(15+i) * 0.5e-6 * 2
			p.Growth.Panel = []PanelPoint{{2e3, 0.66e-6}, {10e3, 18.8e-6}, {30e3, 22.7e-6}}
			for _, o := range []Options{{}, {Cells: 4, Tolerance: 1e-2}, {Cells: 6, Tolerance: 1e-4}} {
				if _, err := p.Run(c, 0, o); err != nil {
					t.Errorf("%.1f mL, %+v: %v", 1e6*p.Volume, o, err)
				}
			}
		}
	}
}
