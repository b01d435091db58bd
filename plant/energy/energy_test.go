package energy

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Eight zones of two lamps by hand: 2 * 2000 W * 0.417 mean setting * 8 * 0.76.
func TestLampPower(t *testing.T) {
	var zones []Zone
	var sum float64
	for _, s := range []float64{0.60, 0.50, 0.45, 0.44, 0.47, 0.51, 0.56, 0.64} {
		zones = append(zones, Zone{Lamps: 2, Rated: 2000, Setting: s})
		sum += s
	}
	got, err := LampPower(zones, 0.76)
	if err != nil || math.Abs(got-2*2000*sum*0.76) > 1e-9 {
		t.Errorf("got %g, %v", got, err)
	}
	if got, _ = LampPower(zones, 0); got != 0 {
		t.Errorf("lamps off take %g W", got)
	}
	zones[3].Setting = 1.2
	if _, err = LampPower(zones, 0.76); err == nil {
		t.Error("a setting above one accepted")
	}
	if _, err = LampPower(nil, 1); err == nil {
		t.Error("an oven without zones accepted")
	}
}

func TestPerBottle(t *testing.T) {
	// 100 kW at 28800 bottles/h: 12.5 kJ.
	got, err := PerBottle(100e3, 28800.0/3600)
	if err != nil || math.Abs(got-12500) > 1e-9 {
		t.Errorf("got %g, %v", got, err)
	}
	if _, err = PerBottle(1, 0); err == nil {
		t.Error("rate 0 accepted")
	}
}

func TestCooling(t *testing.T) {
	got, err := Cooling(2000, 4)
	if err != nil || got != 500 {
		t.Errorf("got %g, %v", got, err)
	}
	if _, err = Cooling(2000, 0); err == nil {
		t.Error("no chiller accepted")
	}
}

func TestRefuses(t *testing.T) {
	for name, f := range map[string]func() (float64, error){
		"mass":       func() (float64, error) { return Ideal(0, 1e5) },
		"enthalpy":   func() (float64, error) { return Ideal(0.03, math.NaN()) },
		"efficiency": func() (float64, error) { return Oven(1000, 0) },
		"heat":       func() (float64, error) { return Oven(math.Inf(1), 0.2) },
	} {
		if _, err := f(); err == nil {
			t.Errorf("%s accepted", name)
		}
	}
	if _, err := Sum(Exact("a", "", 1, "CommonPractice"), Exact("a", "", 2, "CommonPractice")); err == nil {
		t.Error("a key twice accepted")
	}
	if _, err := Sum(Line{Key: "a", Energy: 2, Low: 3, High: 4}); err == nil {
		t.Error("a range beside its value accepted")
	}
	if _, err := Factor("a", "", 1, 2, 3, 4, ""); err == nil {
		t.Error("a value below its range accepted")
	}
}

// A credit keeps its range in order, and the total holds itself.
func TestSumHoldsItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "n")
		var lines []Line
		var want float64
		for i := range n {
			q := rapid.Float64Range(-10, 10).Draw(t, "q")
			v := rapid.Float64Range(1, 2).Draw(t, "v")
			l, err := Factor(string(rune('a'+i)), "x", q, v, 0.9*v, 1.2*v, "CommonPractice")
			if err != nil {
				t.Fatal(err)
			}
			want += q * v
			lines = append(lines, l)
		}
		s, err := Sum(lines...)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(s.Energy-want) > 1e-9 || s.Low > s.Energy || s.High < s.Energy {
			t.Fatalf("%+v, want %g", s, want)
		}
	})
}
