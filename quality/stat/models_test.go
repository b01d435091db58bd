package stat

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestOneWayRefuses(t *testing.T) {
	for _, bad := range [][]Group{
		{{"a", []float64{1, 2}}},
		{{"a", []float64{1}}, {"b", []float64{2}}},
		{{"a", []float64{1, 1}}, {"b", []float64{2, 2}}},
		{{"a", nil}, {"b", []float64{2, 2}}},
	} {
		if _, err := OneWay(bad); err == nil {
			t.Errorf("%v: no error", bad)
		}
	}
}

// Sums of squares add up to the total.
func TestOneWayAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var groups []Group
		var all []float64
		for range rapid.IntRange(2, 5).Draw(t, "groups") {
			x := rapid.SliceOfN(rapid.Float64Range(-10, 10), 2, 6).Draw(t, "x")
			groups = append(groups, Group{"g", x})
			all = append(all, x...)
		}
		a, err := OneWay(groups)
		if err != nil {
			t.Skip(err)
		}
		s, err := Summarize(all)
		if err != nil {
			t.Fatal(err)
		}
		total := s.S * s.S * float64(s.N-1)
		if math.Abs(a.BetweenSS+a.WithinSS-total) > 1e-9*(1+total) {
			t.Fatalf("%g + %g, want %g", a.BetweenSS, a.WithinSS, total)
		}
		if a.P < 0 || a.P > 1 {
			t.Fatalf("P %g", a.P)
		}
	})
}

func TestLine(t *testing.T) {
	l, err := FitLine([]float64{0, 1, 2, 3}, []float64{1, 3, 5, 7})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "slope", l.Slope, 2, 1e-14)
	near(t, "S", l.S, 0, 1e-14)
	if v, mean, one, err := l.At(10, 0.95); err != nil || math.Abs(v-21) > 1e-12 || mean > 1e-9 || one > 1e-9 {
		t.Errorf("%g ± %g, %g, %v", v, mean, one, err)
	}
	if _, err := FitLine([]float64{1, 1, 1}, []float64{1, 2, 3}); err == nil {
		t.Error("one x: no error")
	}
	if _, err := FitLine([]float64{1, 2}, []float64{1, 2, 3}); err == nil {
		t.Error("lengths: no error")
	}
	// Far from the data the interval of the mean opens.
	x, y := norris()
	n, err := FitLine(x, y)
	if err != nil {
		t.Fatal(err)
	}
	_, in, _, _ := n.At(n.MeanX, 0.95)
	_, out, _, _ := n.At(5000, 0.95)
	if out < 5*in {
		t.Errorf("half widths %g in the middle, %g far out", in, out)
	}
}

func TestCompare(t *testing.T) {
	// Equal spread and size: the pooled t test with 22 degrees of freedom.
	a, b := Summary{N: 12, Mean: 3.58, S: 0.03}, Summary{N: 12, Mean: 3.57, S: 0.03}
	c, err := Compare(a, b, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "difference", c.Difference, -0.01, 1e-12)
	near(t, "degrees of freedom", c.DF, 22, 1e-9)
	if c.P < 0.4 || c.P > 0.45 || c.Lo > 0 || c.Hi < 0 {
		t.Errorf("%+v", c)
	}
	if _, err := Compare(Summary{N: 1}, b, 0.95); err == nil {
		t.Error("one value: no error")
	}
	if _, err := Compare(Summary{N: 3}, Summary{N: 3}, 0.95); err == nil {
		t.Error("no spread: no error")
	}
}

func TestWeibullRecoversItsQuantiles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		beta, eta := rapid.Float64Range(0.6, 20).Draw(t, "beta"), rapid.Float64Range(0.01, 1e4).Draw(t, "eta")
		var r []Reading
		for i := range 400 {
			p := (float64(i) + 0.5) / 400
			r = append(r, Reading{Value: eta * math.Pow(-math.Log1p(-p), 1/beta)})
		}
		w, err := FitWeibull(r)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(w.Beta/beta-1) > 0.02 || math.Abs(w.Eta/eta-1) > 0.02 {
			t.Fatalf("shape %g, scale %g, want %g and %g", w.Beta, w.Eta, beta, eta)
		}
		q, err := w.Quantile(0.05)
		if err != nil {
			t.Fatal(err)
		}
		b, err := w.QuantileLower(0.05, 0.95)
		if err != nil || b >= q {
			t.Fatalf("bound %g of quantile %g, %v", b, q, err)
		}
	})
}

func TestWeibullRefuses(t *testing.T) {
	for _, c := range []struct {
		says string
		r    []Reading
	}{
		{"at least 2", []Reading{{Value: 3}, {Value: 4, Censored: true}}},
		{"differ", []Reading{{Value: 3}, {Value: 3}}},
		{"above 0", []Reading{{Value: 3}, {Value: 0}}},
		{"above 0", []Reading{{Value: 3}, {Value: math.NaN()}}},
		{"shape", []Reading{{Value: 1e-200}, {Value: 1e200}}},
	} {
		if _, err := FitWeibull(c.r); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v: %v, want %q", c.r, err, c.says)
		}
	}
}

func TestGaugeRefuses(t *testing.T) {
	if _, err := Gauge([][][]float64{{{1, 2}, {3, 4}}}, 0.25); err == nil {
		t.Error("one appraiser: no error")
	}
	if _, err := Gauge([][][]float64{{{1, 2}, {3, 4}}, {{1, 2}, {3}}}, 0.25); err == nil {
		t.Error("missing trial: no error")
	}
	if _, err := Gauge([][][]float64{{{1, 1}, {3, 3}}, {{1, 1}, {3, 3}}}, 0.25); err == nil {
		t.Error("equal trials: no error")
	}
	// A strong interaction is kept.
	g, err := Gauge([][][]float64{{{1, 1.1}, {9, 9.1}}, {{9, 9.1}, {1, 1.1}}}, 0.25)
	if err != nil || g.Pooled || g.IV <= 0 || len(g.Negative) == 0 {
		t.Errorf("%+v, %v", g, err)
	}
	near(t, "sums", g.AppraiserSS+g.PartSS+g.InteractionSS+g.EquipmentSS, g.TotalSS, 1e-9)
}

func TestAgreement(t *testing.T) {
	r := [][][]string{
		{{"ok", "ok", "bad", "bad", "ok"}, {"ok", "ok", "bad", "ok", "ok"}},
		{{"ok", "ok", "bad", "bad", "ok"}, {"ok", "ok", "bad", "bad", "ok"}},
	}
	s, err := Attributes(r, []string{"ok", "ok", "bad", "bad", "bad"}, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	if s.Within[0].Agreed != 4 || s.Within[1].Agreed != 5 || s.Standard[1].Agreed != 4 || s.Between.Agreed != 4 || s.All.Agreed != 3 || !s.HasKappa {
		t.Errorf("%+v", s)
	}
	// 5 of 5: the lower limit of Clopper and Pearson at 97.5 % is 0.025^(1/5)
	near(t, "lower limit", s.Within[1].Lo, math.Pow(0.025, 0.2), 1e-9)
	if _, err := Attributes(r, []string{"ok"}, 0.95); err == nil {
		t.Error("short standard: no error")
	}
	if _, _, err := CohenKappa([]string{"a", "a"}, []string{"a", "a"}); err == nil {
		t.Error("one category: no error")
	}
	if k, _, err := CohenKappa([]string{"a", "b"}, []string{"a", "b"}); k != 1 || err != nil {
		t.Errorf("full agreement: %g, %v", k, err)
	}
	if _, err := FleissKappa([][]int{{2, 0}, {1, 2}}); err == nil {
		t.Error("unequal ratings: no error")
	}
}

func TestIndividualsSeeADrift(t *testing.T) {
	x := []float64{10, 10.2, 9.9, 10.1, 9.8, 10, 10.1, 9.9}
	c, err := Individuals(x)
	if err != nil || c.Signals != nil {
		t.Errorf("steady: %+v, %v", c, err)
	}
	for range 8 {
		x = append(x, 10.6, 10.7)
	}
	c, err = Individuals(x)
	if err != nil || len(c.Signals) == 0 {
		t.Errorf("shifted: %+v, %v", c, err)
	}
	if _, err := Individuals([]float64{1, 1, 1, 1, 1}); err == nil {
		t.Error("equal values: no error")
	}
}
