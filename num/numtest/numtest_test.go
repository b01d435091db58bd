package numtest

import (
	"errors"
	"flag"
	"math"
	"testing"
)

func TestMain(m *testing.M) { Main(m) }

func TestSeed(t *testing.T) {
	for name := range map[string]string{"rapid.seed": "", "rapid.nofailfile": ""} {
		f := flag.Lookup(name)
		if f == nil || f.Value.String() == f.DefValue {
			t.Errorf("%s is not set", name)
		}
	}
}

// heard counts the faults it is told.
type heard struct {
	testing.TB
	faults int
}

func (h *heard) Helper()               {}
func (h *heard) Errorf(string, ...any) { h.faults++ }

func TestNear(t *testing.T) {
	for _, c := range []struct {
		got, want, tol float64
		faults         int
	}{
		{1.01, 1, 0.011, 0},
		{-0.99, -1, 0.011, 0},
		{1.02, 1, 0.011, 1},
		{0, 0, 0, 0},
		{1e-200, 0, 0.1, 1},
		{math.NaN(), 1, 0.1, 1},
		{1, math.NaN(), 0.1, 1},
		{1, 1, math.NaN(), 1},
		{math.Inf(1), 1, 0.1, 1},
	} {
		h := &heard{}
		Near(h, "x", c.got, c.want, c.tol)
		if h.faults != c.faults {
			t.Errorf("%+v: %d faults", c, h.faults)
		}
	}
}

func TestMust(t *testing.T) {
	if Must(2, nil) != 2 {
		t.Error("another value")
	}
	defer func() {
		if recover() == nil {
			t.Error("swallows an error")
		}
	}()
	Must(2, errors.New("no"))
}
