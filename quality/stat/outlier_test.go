package stat

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestFlags(t *testing.T) {
	// Two low values hide each other from a test for one.
	x := []float64{16.2, 14.3, 14.2, 15.8, 15.1, 17.0, 11.6, 16.9, 16.2, 16.2, 15.2, 16.2, 15.7, 14.2, 14.8, 14.3, 16.5, 13.6, 16.1, 14.7, 14.6, 15.7, 10.4, 14.8}
	f, err := Flags(x)
	if err != nil {
		t.Fatal(err)
	}
	var at []int
	for _, v := range f {
		at = append(at, v.Index)
	}
	if !slices.Contains(at, 22) {
		t.Errorf("flags %v do not hold the value 10.4", f)
	}
	if f, err := Flags([]float64{5, 5, 5, 5, 5, 5, 5}); f != nil || err != nil {
		t.Errorf("equal values: %v, %v", f, err)
	}
	if f, err := Flags([]float64{1, 2, 90}); f != nil || err != nil {
		t.Errorf("three values: %v, %v", f, err)
	}
	z, err := ModifiedZ([]float64{5, 5, 5, 5, 9})
	if err != nil || z[4] < 3.5 {
		t.Errorf("robust distance %v, %v", z, err)
	}
	if _, _, err := ESD([]float64{1, 2, 3, 4}, 3, 0.05); err == nil {
		t.Error("three outliers among four: no error")
	}
}

// Moving or stretching the scale moves no flag.
func TestFlagsAreFreeOfTheUnit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) float64 { return float64(rapid.IntRange(0, 400).Draw(t, "v")) / 8 }), 6, 24).Draw(t, "x")
		y := make([]float64, len(x))
		for i := range x {
			y[i] = 4*x[i] + 64
		}
		a, err := Flags(x)
		if err != nil {
			t.Fatal(err)
		}
		b, err := Flags(y)
		if err != nil {
			t.Fatal(err)
		}
		if len(a) != len(b) {
			t.Fatalf("%d flags, %d after a change of unit", len(a), len(b))
		}
	})
}

func TestNormality(t *testing.T) {
	straight := []float64{-1.6, -1.1, -0.7, -0.4, -0.1, 0.1, 0.4, 0.7, 1.1, 1.6}
	good, err := AndersonDarling(straight)
	if err != nil || good.P < 0.5 {
		t.Errorf("%+v, %v", good, err)
	}
	skew := []float64{1, 1.1, 1.2, 1.2, 1.3, 1.4, 1.5, 3, 9, 30}
	bad, err := AndersonDarling(skew)
	if err != nil || bad.P > 0.01 {
		t.Errorf("%+v, %v", bad, err)
	}
	if _, err := AndersonDarling([]float64{2, 2, 2, 2, 2, 2, 2, 2}); err == nil {
		t.Error("equal values: no error")
	}
	below, above, err := HalfSpreads(skew)
	if err != nil || above < 2*below {
		t.Errorf("spreads %g below, %g above, %v", below, above, err)
	}
}
