package climate

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"costrel/unit"

	"pgregory.net/rapid"
)

// mixed has a constant, a cyclic and a stepped segment.
func mixed() Lane {
	return Lane{Name: "mixed", Segments: []Segment{
		{Name: "store", Duration: 10 * Day, Temperature: unit.Celsius(20), Humidity: 0.5},
		{
			Name: "road", Start: 10 * Day, Duration: 3 * Day, Temperature: unit.Celsius(25), Humidity: 0.4,
			Daily: Cycle{Temperature: 12, Humidity: 0.1, Peak: 15 * 3600}, Altitude: 1500,
		},
		{Name: "log", Start: 13 * Day, Duration: 2 * Day, Steps: []Step{
			{0, unit.Celsius(30), 0.3}, {Day / 2, unit.Celsius(18), 0.6}, {Day, unit.Celsius(41), 0.2},
		}},
	}}
}

func TestAt(t *testing.T) {
	c, err := mixed().Course()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range []struct {
		t, celsius, rh float64
		segment        int
	}{
		{0, 20, 0.5, 0},
		{10*Day - 1, 20, 0.5, 0},
		{10*Day + 15*3600, 37, 0.3, 1},   // the peak of the day
		{10*Day + 3*3600, 13, 0.5, 1},    // half a day away
		{10*Day + 9*3600, 25, 0.4, 1},    // a quarter
		{13 * Day, 30, 0.3, 2},           // the later segment holds at the edge
		{13*Day + Day/2, 18, 0.6, 2},     // the later step holds
		{13*Day + Day/2 - 1, 30, 0.3, 2}, // and not before
		{15 * Day, 41, 0.2, 2},           // the end
	} {
		s, err := c.At(r.t)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(s.Temperature.Celsius()-r.celsius) > 1e-9 || math.Abs(s.Humidity-r.rh) > 1e-12 || s.Segment != r.segment {
			t.Errorf("at %g d: %.6f °C, %.4f, segment %d; want %+v", r.t/Day, s.Temperature.Celsius(), s.Humidity, s.Segment, r)
		}
	}
	if s, _ := c.At(11 * Day); math.Abs(float64(s.Ambient)-84556) > 5 {
		t.Errorf("ambient at 1500 m: %g", float64(s.Ambient))
	}
	for _, x := range []float64{-1, 15*Day + 1, math.NaN(), math.Inf(1)} {
		if _, err := c.At(x); err == nil {
			t.Errorf("time %g accepted", x)
		}
	}
	if _, err := (Course{}).At(0); err == nil {
		t.Error("an empty course answers")
	}
	want := []float64{0, 10 * Day, 13 * Day, 13.5 * Day, 14 * Day, 15 * Day}
	if got := c.Breaks(); !slices.Equal(got, want) {
		t.Errorf("breaks %v", got)
	}
}

func TestValidate(t *testing.T) {
	for want, change := range map[string]func(*Lane){
		"has no segments":               func(l *Lane) { l.Segments = nil },
		"a gap of 24 h":                 func(l *Lane) { l.Segments[1].Start += Day; l.Segments[2].Start += Day },
		"an overlap of 24 h":            func(l *Lane) { l.Segments[1].Start -= Day },
		"duration 0 d":                  func(l *Lane) { l.Segments[0].Duration = 0 },
		"duration -1 d":                 func(l *Lane) { l.Segments[2].Duration = -Day },
		"duration NaN d":                func(l *Lane) { l.Segments[2].Duration = math.NaN() },
		"20 °C outside":                 func(l *Lane) { l.Segments[0].Temperature = 20 }, // kelvin for Celsius
		"temperature 13..97 °C":         func(l *Lane) { l.Segments[1].Temperature += 30; l.Segments[1].Daily.Temperature = 42 },
		"humidity 55..105 %":            func(l *Lane) { l.Segments[1].Humidity = 0.8; l.Segments[1].Daily.Humidity = 0.25 },
		"altitude 12000 m":              func(l *Lane) { l.Segments[0].Altitude = 12000 },
		"first step starts at 1 h":      func(l *Lane) { l.Segments[2].Steps[0].Start = 3600 },
		"does not follow the one":       func(l *Lane) { l.Segments[2].Steps[1].Start = 0 },
		"not inside the 48 h":           func(l *Lane) { l.Segments[2].Steps[2].Start = 2 * Day },
		"steps and a temperature":       func(l *Lane) { l.Segments[2].Temperature = 290 },
		"step 1: relative humidity 130": func(l *Lane) { l.Segments[2].Steps[0].Humidity = 1.3 },
		"swing -1 K":                    func(l *Lane) { l.Segments[1].Daily.Temperature = -1 },
		"lasts": func(l *Lane) {
			*l = Constant("x", 290, 0.5, MaxDuration)
			l.Segments = append(l.Segments, Segment{Start: MaxDuration, Duration: 1, Temperature: 290})
		},
	} {
		l := mixed()
		change(&l)
		err := l.Validate()
		if want == "20 °C outside" {
			want = "-253.15..-253.15 °C outside -40..80 °C"
		}
		if err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), want) {
			t.Errorf("want %q, have %v", want, err)
		}
		if _, err := l.Course(); err == nil {
			t.Errorf("%q: a course of a bad lane", want)
		}
	}
	// Every fault at once.
	l := mixed()
	l.Segments[0].Humidity = 2
	l.Segments[1].Altitude = -9999
	l.Segments[2].Steps[1].Temperature = 0
	var many interface{ Unwrap() []error }
	if err := l.Validate(); !errors.As(err, &many) || len(many.Unwrap()) != 3 {
		t.Errorf("want three faults, have %v", err)
	}
}

func TestExtremes(t *testing.T) {
	c, err := mixed().Course()
	if err != nil {
		t.Fatal(err)
	}
	if w := c.Warmest(); w.Temperature.Celsius() != unit.Celsius(41).Celsius() || w.Time != 14*Day {
		t.Errorf("warmest %+v", w)
	}
	if k := c.Coldest(); math.Abs(k.Temperature.Celsius()-13) > 1e-9 || math.Abs(k.Time-(10*Day+3*3600)) > 1 {
		t.Errorf("coldest %g °C at %g d", k.Temperature.Celsius(), k.Time/Day)
	}
}

// With both cycles the warmest hour is the afternoon nearest midsummer.
func TestExtremeOfTwoCycles(t *testing.T) {
	l := Constant("two", unit.Celsius(15), 0.5, Year)
	l.Segments[0].Daily = Cycle{Temperature: 3, Peak: 15 * 3600}
	l.Segments[0].Season = Cycle{Temperature: 9, Peak: 200 * Day}
	c, err := l.Course()
	if err != nil {
		t.Fatal(err)
	}
	w := c.Warmest()
	// Nearest afternoons: 15 h of day 199 (9 h off), of day 200 (15 h off).
	want := 15 + 3 + 9*math.Cos(2*math.Pi*(9*3600)/Year)
	if math.Abs(w.Temperature.Celsius()-want) > 1e-4 || math.Abs(w.Time-(199*Day+15*3600)) > 60 {
		t.Errorf("%g °C at day %g, want %g", w.Temperature.Celsius(), w.Time/Day, want)
	}
}

// No sampled time is warmer than Warmest or colder than Coldest; the mean
// kinetic temperature lies between the mean and the warmest.
func TestOrderOfTemperatures(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var l Lane
		start := 0.0
		for i := range rapid.IntRange(1, 4).Draw(t, "n") {
			s := Segment{
				Start: start, Duration: rapid.Float64Range(3600, 100*Day).Draw(t, "d"),
				Temperature: unit.Celsius(rapid.Float64Range(0, 40).Draw(t, "T")), Humidity: 0.5,
			}
			if i%2 == 0 {
				s.Daily = Cycle{Temperature: unit.TemperatureDiff(rapid.Float64Range(0, 15).Draw(t, "a")), Humidity: 0.2, Peak: 15 * 3600}
				s.Season = Cycle{Temperature: unit.TemperatureDiff(rapid.Float64Range(0, 15).Draw(t, "b")), Peak: Year / 2}
			}
			l.Segments = append(l.Segments, s)
			start += s.Duration
		}
		c, err := l.Course()
		if err != nil {
			t.Fatal(err)
		}
		hot, cold := c.Warmest(), c.Coldest()
		for range 50 {
			s, err := c.At(rapid.Float64Range(0, 1).Draw(t, "x") * c.Duration())
			if err != nil {
				t.Fatal(err)
			}
			if s.Temperature > hot.Temperature+1e-4 || s.Temperature < cold.Temperature-1e-4 {
				t.Fatalf("%g K outside %g..%g K", float64(s.Temperature), float64(cold.Temperature), float64(hot.Temperature))
			}
		}
		for _, x := range []Extreme{hot, cold} {
			if s, _ := c.At(x.Time); math.Abs(float64(s.Temperature-x.Temperature)) > 1e-6 && len(l.Segments) == 1 {
				t.Fatalf("%+v is not met at its time: %+v", x, s)
			}
		}
		k, err := c.MeanKinetic(45e3)
		if err != nil {
			t.Fatal(err)
		}
		if m := c.Mean(); k < m-1e-6 || k > hot.Temperature+1e-6 {
			t.Fatalf("mean %g, kinetic %g, warmest %g", float64(m), float64(k), float64(hot.Temperature))
		}
	})
}

func TestKinetic(t *testing.T) {
	// A constant lane is its own mean kinetic temperature.
	c, err := Constant("room", unit.Celsius(22), 0.5, Year).Course()
	if err != nil {
		t.Fatal(err)
	}
	if k, err := c.MeanKinetic(45e3); err != nil || math.Abs(k.Celsius()-22) > 1e-9 {
		t.Errorf("%v %v", k, err)
	}
	// Two equal halves by hand.
	l := Lane{Segments: []Segment{
		{Duration: Day, Temperature: 280}, {Start: Day, Duration: Day, Temperature: 310},
	}}
	c, err = l.Course()
	if err != nil {
		t.Fatal(err)
	}
	const e = 50e3
	r := e / unit.GasConstant
	want := r / -math.Log((math.Exp(-r/280)+math.Exp(-r/310))/2)
	if k, _ := c.MeanKinetic(e); math.Abs(float64(k)-want) > 1e-9 {
		t.Errorf("got %g want %g", float64(k), want)
	}
	f, err := c.Acceleration(e, 280)
	if want := (1 + math.Exp(-r*(1/310.0-1/280.0))) / 2; err != nil || math.Abs(f-want) > 1e-9*want {
		t.Errorf("acceleration %g want %g, %v", f, want, err)
	}
	for _, e := range []float64{0, 45, math.NaN(), 1e6} {
		if _, err := c.MeanKinetic(e); err == nil {
			t.Errorf("activation energy %g J/mol accepted", e)
		}
	}
	if _, err := c.Acceleration(e, 22); err == nil {
		t.Error("a reference of 22 K accepted")
	}
	if _, err := (Course{}).MeanKinetic(e); err == nil {
		t.Error("an empty course has a kinetic temperature")
	}
}

// The panels resolve the cycle: a segment cut in odd pieces has the same mean.
func TestMeanAgreesWithPieces(t *testing.T) {
	c, err := daily()
	if err != nil {
		t.Fatal(err)
	}
	var l Lane
	for i := range 73 {
		s := c.lane.Segments[0]
		s.Start, s.Duration = float64(i)*5*Day, 5*Day
		l.Segments = append(l.Segments, s)
	}
	d, err := l.Course()
	if err != nil {
		t.Fatal(err)
	}
	a, _ := c.MeanKinetic(45e3)
	b, _ := d.MeanKinetic(45e3)
	if math.Abs(float64(a-b)) > 1e-7 {
		t.Errorf("%g and %g", float64(a), float64(b))
	}
}

func TestAtmosphere(t *testing.T) {
	if p, err := Pressure(0); err != nil || p != unit.Atm {
		t.Errorf("%g %v", float64(p), err)
	}
	if _, err := Pressure(20000); err == nil {
		t.Error("20 km accepted")
	}
	if _, err := AltitudeGauge(math.NaN(), 0); err == nil {
		t.Error("NaN accepted")
	}
	if p, err := AltitudeGauge(0, 3000); err != nil || p < 31e3 || p > 31.5e3 {
		t.Errorf("sea level to 3000 m: %g", float64(p))
	}
}

func TestNamed(t *testing.T) {
	for _, c := range Cards() {
		l, err := Named(c.Name)
		if err != nil {
			t.Errorf("%s: %v", c.Name, err)
			continue
		}
		if _, err := l.Course(); err != nil {
			t.Errorf("%s: %v", c.Name, err)
		}
	}
	if _, err := Named("moon"); err == nil {
		t.Error("an unknown lane answers")
	}
	c := Cards()[0]
	c.Data[0].Key = "1.temprature"
	if _, err := FromCard(c); err == nil {
		t.Error("a card without a temperature accepted")
	}
	c = Cards()[0]
	c.Data = append(c.Data, c.Data[0])
	c.Data[len(c.Data)-1].Key = "1.colour"
	if _, err := FromCard(c); err == nil {
		t.Error("a key of no segment accepted")
	}
}
