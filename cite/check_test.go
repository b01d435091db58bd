package cite

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"
)

func TestRun(t *testing.T) {
	is := func(x float64) func() float64 { return func() float64 { return x } }
	for _, c := range []struct {
		what      string
		check     Check
		ok        bool
		deviation float64
		problem   string
	}{
		{"inside", Check{Ours: is(10.4), Published: 10, Allowed: 0.5}, true, 0.4, ""},
		{"on the limit", Check{Ours: is(10.5), Published: 10, Allowed: 0.5}, true, 0.5, ""},
		{"above", Check{Ours: is(10.6), Published: 10, Allowed: 0.5}, false, 0.6, ""},
		{"below", Check{Ours: is(9.4), Published: 10, Allowed: 0.5}, false, -0.6, ""},
		{"a fraction", Check{Ours: is(-10.4), Published: -10, Allowed: 0.05, Relative: true}, true, -0.04, ""},
		{"a fraction above", Check{Ours: is(10.6), Published: 10, Allowed: 0.05, Relative: true}, false, 0.06, ""},
		{"exact", Check{Ours: is(10), Published: 10}, true, 0, ""},
		{"zero", Check{Ours: is(1e-12), Published: 0, Allowed: 1e-9}, true, 1e-12, ""},
		{"NaN", Check{Ours: is(math.NaN()), Published: 10, Allowed: 1e300}, false, 0, "gave NaN"},
		{"infinite", Check{Ours: is(math.Inf(-1)), Published: 10, Allowed: 1e300}, false, 0, "gave -Inf"},
		{"overflow", Check{Ours: is(1e308), Published: -1e308, Allowed: 1}, false, 0, "beyond comparison"},
		{"no function", Check{Published: 10}, false, 0, "nothing to run"},
		{"panic", Check{Ours: func() float64 { panic("lost") }, Published: 10, Allowed: 10}, false, 0, "panicked: lost"},
		{"cannot fail", Check{Ours: is(1), Published: 10, Allowed: math.Inf(1)}, false, 0, "no limit"},
		{"limit NaN", Check{Ours: is(1), Published: 10, Allowed: math.NaN()}, false, 0, "no limit"},
		{"limit below zero", Check{Ours: is(10), Published: 10, Allowed: -1}, false, 0, "no limit"},
		{"published NaN", Check{Ours: is(1), Published: math.NaN(), Allowed: 1}, false, 0, "no finite published value"},
		{"fraction of zero", Check{Ours: is(0), Allowed: 1, Relative: true}, false, 0, "relative to a published value of zero"},
	} {
		r := c.check.Run()
		if r.OK != c.ok || math.Abs(r.Deviation-c.deviation) > 1e-12 || !strings.Contains(r.Problem, c.problem) || (c.problem == "") != (r.Problem == "") {
			t.Errorf("%s: %+v", c.what, r)
		}
		if _, err := json.Marshal(r.Value + r.Deviation); err != nil {
			t.Errorf("%s: %v", c.what, err)
		}
	}
}

func TestOr(t *testing.T) {
	if Or(2, nil) != 2 || !math.IsNaN(Or(2, errors.New("no"))) {
		t.Error("want the value, NaN beside an error")
	}
}

func TestResultAsJSON(t *testing.T) {
	r := Check{ID: "a.b", Ours: func() float64 { return 2 }, Published: 2, Mark: Memory}.Run()
	b, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	const want = `{"id":"a.b","case":"","source":"","unit":"","published":2,"allowed":0,"relative":false,"mark":"from memory","value":2,"deviation":0,"ok":true}`
	if string(b) != want {
		t.Errorf("%s\nwant %s", b, want)
	}
}
