package climate

import (
	"math"
	"testing"

	"costrel/unit"
)

func TestShifted(t *testing.T) {
	l := Lane{Segments: []Segment{
		{Duration: Day, Temperature: unit.Celsius(20), Humidity: 0.5, Daily: Cycle{Temperature: 3}},
		{Start: Day, Duration: Day, Steps: []Step{{0, unit.Celsius(10), 0.5}, {3600, unit.Celsius(30), 0.5}}},
	}}
	c, err := l.Course()
	if err != nil {
		t.Fatal(err)
	}
	m, err := l.Shifted(-2.5).Course()
	if err != nil {
		t.Fatal(err)
	}
	for _, at := range []float64{0, 0.3 * Day, 1.01 * Day, 1.9 * Day} {
		a, _ := c.At(at)
		b, _ := m.At(at)
		if math.Abs(float64(a.Temperature-b.Temperature)-2.5) > 1e-9 {
			t.Errorf("at %g d: %g and %g K", at/Day, float64(a.Temperature), float64(b.Temperature))
		}
	}
	if l.Segments[1].Steps[0].Temperature != unit.Celsius(10) {
		t.Error("the lane itself has moved")
	}
	if err := l.Shifted(1000).Validate(); err == nil {
		t.Error("1020 °C is a lane")
	}
}

func TestCalm(t *testing.T) {
	l, err := Named("warehouse")
	if err != nil {
		t.Fatal(err)
	}
	c, err := l.Calm(45e3)
	if err != nil {
		t.Fatal(err)
	}
	if c.Segments[0].Daily != (Cycle{}) || c.Segments[0].Season != l.Segments[0].Season || l.Segments[0].Daily == (Cycle{}) {
		t.Errorf("%+v", c.Segments[0])
	}
	whole, err := l.Course()
	if err != nil {
		t.Fatal(err)
	}
	calm, err := c.Course()
	if err != nil {
		t.Fatal(err)
	}
	a, _ := whole.MeanKinetic(45e3)
	b, _ := calm.MeanKinetic(45e3)
	if math.Abs(float64(a-b)) > 0.02 {
		t.Errorf("mean kinetic %g and %g K", float64(a), float64(b))
	}
	// The extremes of the whole lane are told by the calm one.
	for _, x := range []struct{ whole, calm Extreme }{{whole.Warmest(), calm.Warmest()}, {whole.Coldest(), calm.Coldest()}} {
		if math.Abs(float64(x.whole.Temperature-x.calm.Temperature)) > 0.01 {
			t.Errorf("%g and %g °C", x.whole.Temperature.Celsius(), x.calm.Temperature.Celsius())
		}
	}
	if st, err := calm.At(100 * Day); err != nil || math.Abs(float64(st.Warm-st.Cool)-6) > 1e-9 || !(st.Warm > st.Temperature && st.Temperature > st.Cool) {
		t.Errorf("%+v, %v", st, err)
	}
	if l, err = Named("tropical"); err != nil {
		t.Fatal(err)
	}
	if c, err = l.Calm(45e3); err != nil {
		t.Fatal(err)
	}
	if calm, err = c.Course(); err != nil || math.Abs(calm.Warmest().Temperature.Celsius()-36) > 1e-9 || calm.Warmest().Time != 15*3600 || math.Abs(calm.Coldest().Temperature.Celsius()-24) > 1e-9 {
		t.Errorf("warmest %+v, coldest %+v, %v", calm.Warmest(), calm.Coldest(), err)
	}
	if _, err := l.Calm(1); err == nil {
		t.Error("1 J/mol is answered")
	}
}
