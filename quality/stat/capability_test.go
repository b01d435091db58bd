package stat

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestCapabilitySides(t *testing.T) {
	f := Normal{N: 30, Mean: 13.07, S: 0.2}
	c, err := f.Capability(Spec{Lower: 12.5, Upper: 13.7, HasLower: true, HasUpper: true}, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "Ppk", c.Ppk.Value, 0.57/0.6, 1e-12)
	near(t, "Pp", c.Pp.Value, 1.0, 1e-12)
	if c.Side != Lower || c.HasC || c.Ppk.IsExact {
		t.Errorf("%+v", c)
	}
	one, err := f.Capability(Spec{Upper: 13.7, HasUpper: true}, 0.95)
	if err != nil || one.Side != Upper || one.HasPp || !one.Ppk.IsExact {
		t.Errorf("%+v, %v", one, err)
	}
	for _, bad := range []Spec{{}, {Lower: 2, Upper: 1, HasLower: true, HasUpper: true}} {
		if _, err := f.Capability(bad, 0.95); err == nil {
			t.Errorf("%+v: no error", bad)
		}
	}
	if _, err := (Normal{N: 5, Mean: 1}).Capability(Spec{HasLower: true}, 0.95); err == nil {
		t.Error("no spread: no error")
	}
}

func TestCapabilityWithinGroups(t *testing.T) {
	groups := []Group{{"2", []float64{9.9, 10.1, 10}}, {"14", []float64{11.9, 12.1, 12}}}
	f, err := Fit([]float64{9.9, 10.1, 10, 11.9, 12.1, 12}, Linear)
	if err != nil {
		t.Fatal(err)
	}
	c, err := f.CapabilityWithin(Spec{Lower: 8, HasLower: true}, 0.95, groups)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "within s", c.WithinS, 0.1, 1e-12)
	near(t, "Cpk", c.Cpk.Value, 3/0.3, 1e-9)
	if !c.HasC || c.Cpk.Value < 5*c.Ppk.Value {
		t.Errorf("%+v", c)
	}
	if _, err := f.CapabilityWithin(Spec{Lower: 8, HasLower: true}, 0.95, groups[:1]); err == nil {
		t.Error("values missing from the groups: no error")
	}
}

// The exact bound is below the value, rises with n, and the observed index
// that is needed for it is the index itself.
func TestCpkBoundProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 200).Draw(t, "n")
		v := rapid.Float64Range(0.3, 3).Draw(t, "cpk")
		b, err := CpkBounds(v, n, n-1, 0.95)
		if err != nil {
			t.Fatal(err)
		}
		more, err := CpkBounds(v, 2*n, 2*n-1, 0.95)
		if err != nil {
			t.Fatal(err)
		}
		if b.Exact >= v || more.Exact <= b.Exact {
			t.Fatalf("bounds %g (n), %g (2n) of %g", b.Exact, more.Exact, v)
		}
		need, err := CpkNeeded(n, b.Exact, 0.95)
		if err != nil || math.Abs(need-v) > 1e-8*(1+v) {
			t.Fatalf("needed %g (%v), seen %g", need, err, v)
		}
	})
	n, ok, err := CpkSampleSize(1.72, 1.33, 0.95)
	if err != nil || !ok || n < 29 || n > 31 {
		t.Errorf("n %d for 1.72 to assert 1.33 (%t, %v)", n, ok, err)
	}
	if _, ok, err := CpkSampleSize(1.33, 1.33, 0.95); ok || err != nil {
		t.Errorf("the target itself asserted: %t, %v", ok, err)
	}
}
