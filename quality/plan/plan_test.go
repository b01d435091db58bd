package plan

import (
	"testing"

	"pgregory.net/rapid"

	"costrel/cite"
	"costrel/quality/lab"
	"costrel/quality/stat"
)

func TestTests(t *testing.T) {
	keys := map[string]bool{}
	for _, s := range lab.Sheets() {
		for _, r := range s.Rules {
			keys[r.Key] = true
		}
	}
	for _, o := range []Object{Carbonated, HotFilled, Closure} {
		tests, err := Tests(o)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range tests {
			if _, ok := cite.Lookup(x.Source); !ok {
				t.Errorf("%s: no source %s", x.Name, x.Source)
			}
			if x.Key != "" && !keys[x.Key] {
				t.Errorf("%s: the lab sheets have no %s", x.Name, x.Key)
			}
			if x.Name == "" || x.Method == "" || x.Sets < 1 || (x.N < 1) != (x.Form == Counted) {
				t.Errorf("%+v", x)
			}
			switch x.Confidence {
			case "high", "medium", "low":
			default:
				t.Errorf("%s: confidence %q", x.Name, x.Confidence)
			}
		}
	}
	if _, err := Tests("crate"); err == nil {
		t.Error("unknown object: no error")
	}
}

func TestPieces(t *testing.T) {
	if n, ok, err := Pieces(None, stat.Usual(), 0); n != 59 || !ok || err != nil {
		t.Errorf("%d, %t, %v", n, ok, err)
	}
	if _, ok, err := Pieces(Bound, stat.Usual(), 1.5); ok || err != nil {
		t.Errorf("1.5 s: %t, %v", ok, err)
	}
	if _, _, err := Pieces(Trend, stat.Usual(), 1); err == nil {
		t.Error("trend: no error")
	}
	if _, err := Shows(0, 0.95); err == nil {
		t.Error("no pieces: no error")
	}
}

func TestSpreadIsEven(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, m := rapid.IntRange(1, 200).Draw(t, "n"), rapid.IntRange(1, 144).Draw(t, "moulds")
		share, out, err := Spread(n, m)
		if err != nil {
			t.Fatal(err)
		}
		sum, none := 0, 0
		for _, s := range share {
			sum += s
			if s < n/m || s > (n+m-1)/m {
				t.Fatalf("share %d of %d over %d", s, n, m)
			}
			if s == 0 {
				none++
			}
		}
		if sum != n || none != len(out) {
			t.Fatalf("%d pieces, %d without, of %d over %d", sum, none, n, m)
		}
	})
	if _, _, err := Spread(0, 3); err == nil {
		t.Error("no pieces: no error")
	}
}
