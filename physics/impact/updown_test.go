package impact

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"costrel/unit"
)

func TestHandStaircase(t *testing.T) {
	s, err := ReadStaircase(HandDrops(), 0.1)
	if err != nil {
		t.Fatal(err)
	}
	if s.N != 9 || s.A != 9 || s.B != 15 || !s.ByFailures || s.Failures != 9 || s.Drops != 20 || math.Abs(s.Lowest-1.6) > 1e-9 || s.Reversals != 11 {
		t.Errorf("%+v", s)
	}
	if len(s.Warnings) != 0 {
		t.Errorf("%v", s.Warnings)
	}
	if f, err := s.FailingAt(s.H50); err != nil || math.Abs(f-0.5) > 1e-12 {
		t.Errorf("half: %g, %v", f, err)
	}
	h, w, err := s.HeightFor(0.10)
	if err != nil || w != "" {
		t.Fatal(w, err)
	}
	if f, _ := s.FailingAt(h); math.Abs(f-0.10) > 1e-9 {
		t.Errorf("10 %% height fails %g", f)
	}
	// The bound solves its equation, on a plain grid of heights and spreads.
	low, _, err := s.LowerHeightFor(0.10, 0.95)
	if err != nil {
		t.Fatal(err)
	}
	logL := func(mean, sd float64) (sum float64) {
		for _, d := range HandDrops() {
			p := 0.5 * math.Erfc((mean-d.Height)/sd/math.Sqrt2)
			if !d.Failed {
				p = 1 - p
			}
			sum += math.Log(p)
		}
		return
	}
	best, held := math.Inf(-1), math.Inf(-1)
	for sd := 0.03; sd < 1; sd += 0.0005 {
		held = math.Max(held, logL(low+1.2815516*sd, sd))
		for mean := 1.6; mean < 1.7; mean += 0.002 {
			best = math.Max(best, logL(mean, sd))
		}
	}
	if k := math.Sqrt(2 * (best - held)); math.Abs(k-1.859548) > 2e-3 { // Student, 95 %, 8 degrees
		t.Errorf("bound %g m: root deviance %g", low, k)
	}
	if math.Abs(s.SE50-0.036961) > 1e-6 || math.Abs(s.SES-0.054023) > 1e-6 {
		t.Errorf("%+v", s) // (6 0.112698 + 0.1)/21; (1.1 0.112698 + 0.3 0.112698²/0.1)/3
	}
	if _, w, _ := s.HeightFor(0.001); !strings.Contains(w, "extrapolated") {
		t.Errorf("no warning: %q", w)
	}
}

// Turned upside down, with failures and passes exchanged, a test tells the
// mirrored height and the same spread: the - and + of the half agree.
func TestMirror(t *testing.T) {
	drops := HandDrops()
	wrong := append([]Drop(nil), drops...)
	wrong[2].Height, wrong[5].Height = wrong[2].Height+0.05, 99
	if _, err := ReadStaircase(wrong, 0.1); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), "drop 3:") || !strings.Contains(unit.Spell(err.Error(), unit.EU), "drop 6: height 99 m outside") {
		t.Errorf("two wrong drops: %v", err)
	}
	a, err := ReadStaircase(drops, 0.1)
	if err != nil {
		t.Fatal(err)
	}
	for i, d := range drops {
		drops[i] = Drop{3.3 - d.Height, !d.Failed}
	}
	b, err := ReadStaircase(drops, 0.1)
	if err != nil {
		t.Fatal(err)
	}
	if b.ByFailures || math.Abs(a.H50+b.H50-3.3) > 1e-9 || math.Abs(a.S-b.S) > 1e-9 {
		t.Errorf("%+v\n%+v", a, b)
	}
}

// Many imagined tests: the half-failure height is right on average and scatters
// as its standard error says.
func TestStaircaseOnImaginedPacks(t *testing.T) {
	const h50, sd, n, tests = 1.8, 0.15, 40, 1500
	gen := rand.New(rand.NewPCG(7, 11))
	var sum, sq, se, spread float64
	for range tests {
		drops, err := PlanStaircase(h50, sd, 1.7, 0.15, n, gen.Float64)
		if err != nil {
			t.Fatal(err)
		}
		s, err := ReadStaircase(drops, 0.15)
		if err != nil {
			t.Fatal(err)
		}
		sum += s.H50
		sq += (s.H50 - h50) * (s.H50 - h50)
		se += s.SE50
		spread += s.S
	}
	mean, rms := sum/tests, math.Sqrt(sq/tests)
	t.Logf("mean %.4f, rms %.4f, mean se %.4f, mean s %.4f", mean, rms, se/tests, spread/tests)
	if math.Abs(mean-h50) > 4*rms/math.Sqrt(tests) {
		t.Errorf("mean %g, want %g", mean, h50)
	}
	if r := rms / (se / tests); r < 0.85 || r > 1.25 {
		t.Errorf("scatter over standard error %g", r)
	}
	if r := spread / tests / sd; r < 0.85 || r > 1.1 {
		t.Errorf("spread over its true value %g", r)
	}
}

// The lower bound of the height at which 10 % fail holds nearly as often as it
// claims, for a usual and for a large test.
func TestBoundHolds(t *testing.T) {
	const h50, sd, tests = 1.8, 0.15, 300
	truth := h50 - 1.2815516*sd
	for _, c := range []struct {
		n    int
		step float64
	}{{20, 0.15}, {40, 0.15}, {40, 0.10}} {
		gen := rand.New(rand.NewPCG(5, 17))
		held, none := 0, 0
		for range tests {
			drops, err := PlanStaircase(h50, sd, 1.7, c.step, c.n, gen.Float64)
			if err != nil {
				t.Fatal(err)
			}
			s, err := ReadStaircase(drops, c.step)
			if err != nil {
				t.Fatal(err)
			}
			low, _, err := s.LowerHeightFor(0.10, 0.95)
			switch {
			case err != nil:
				none++
			case low <= truth:
				held++
			}
		}
		share := float64(held) / float64(tests-none)
		t.Logf("%d drops, step %g m: holds in %.3f, no bound in %d of %d", c.n, c.step, share, none, tests)
		if share < 0.90 || none > tests/4 {
			t.Errorf("%d drops, step %g m: holds in %.3f, no bound in %d of %d", c.n, c.step, share, none, tests)
		}
	}
}

func TestStaircaseProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		gen := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1))
		sd := rapid.Float64Range(0.05, 0.2).Draw(t, "s")
		n := rapid.IntRange(6, 60).Draw(t, "n")
		drops, err := PlanStaircase(2, sd, 2, 0.1, n, gen.Float64)
		if err != nil {
			t.Skip(err.Error())
		}
		s, err := ReadStaircase(drops, 0.1)
		if err != nil {
			if !strings.Contains(unit.Spell(err.Error(), unit.EU), "up and down: ") {
				t.Fatal(err)
			}
			return
		}
		if s.N > n/2 || s.N < 1 || !(s.S > 0) || s.Spread < -1e-12 || s.H50 < s.heightMin-0.1 || s.H50 > s.heightMax+0.1 {
			t.Fatalf("%+v", s)
		}
		// Shifted by 0.5 m the answer shifts by 0.5 m.
		for i := range drops {
			drops[i].Height += 0.5
		}
		moved, err := ReadStaircase(drops, 0.1)
		if err != nil || math.Abs(moved.H50-s.H50-0.5) > 1e-9 || math.Abs(moved.S-s.S) > 1e-9 {
			t.Fatalf("%+v, %v", moved, err)
		}
		last := 0.0
		for _, f := range []float64{0.05, 0.2, 0.5, 0.8} {
			h, _, err := s.HeightFor(f)
			if err != nil {
				continue
			}
			if h <= last {
				t.Fatal("height does not rise with the fraction")
			}
			if f == 0.2 {
				if low, _, err := s.LowerHeightFor(f, 0.9); err == nil && low > h {
					t.Fatal("the bound is above the estimate")
				}
			}
			last = h
		}
	})
}

func TestStaircaseRefusals(t *testing.T) {
	good := HandDrops()
	with := func(i int, d Drop) []Drop {
		out := append([]Drop(nil), good...)
		out[i] = d
		return out
	}
	flat := func(failed bool, by float64) []Drop {
		var out []Drop
		for i := range 8 {
			out = append(out, Drop{2 + by*float64(i), failed})
		}
		return out
	}
	for _, c := range []struct {
		drops []Drop
		step  float64
		want  string
	}{
		{good, 0, "step 0 m outside"},
		{good, math.NaN(), "step NaN"},
		{good[:5], 0.1, "5 drops, want 6"},
		{with(3, Drop{1.7, false}), 0.1, "drop 4: height 1.7 m after a failure at 1.7 m, want 1.6 m"},
		{with(2, Drop{1.8, true}), 0.1, "drop 3: height 1.8 m after a pass at 1.6 m, want 1.7 m"},
		{with(0, Drop{math.NaN(), false}), 0.1, "drop 1: height NaN"},
		{with(0, Drop{12, false}), 0.1, "drop 1: height 12 m outside"},
		{flat(false, 0.1), 0.1, "no failure among 8 drops up to 2.7 m"},
		{flat(true, -0.1), 0.1, "all 8 packs failed down to 1.3 m"},
	} {
		if _, err := ReadStaircase(c.drops, c.step); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), c.want) {
			t.Errorf("%q: %v", c.want, err)
		}
	}
	s, err := ReadStaircase(good, 0.1)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range []float64{0, 1, -1, math.NaN()} {
		if _, _, err := s.HeightFor(f); err == nil {
			t.Errorf("fraction %g is answered", f)
		}
		if _, _, err := s.LowerHeightFor(f, 0.95); err == nil {
			t.Errorf("fraction %g is answered", f)
		}
		if _, _, err := s.LowerHeightFor(0.1, f); err == nil {
			t.Errorf("confidence %g is answered", f)
		}
	}
	s.S = 1
	if _, _, err := s.HeightFor(0.01); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), "does not reach") {
		t.Errorf("%v", err)
	}
	if _, err := (Staircase{}).FailingAt(1); err == nil {
		t.Error("an empty staircase answers")
	}
	if _, err := s.FailingAt(math.Inf(1)); err == nil {
		t.Error("an infinite height is answered")
	}
}

func TestStaircaseWarns(t *testing.T) {
	// Fails always at 2.0, never at 1.5: the step is too long.
	var drops []Drop
	for i := range 20 {
		drops = append(drops, Drop{1.5 + 0.5*float64(i%2), i%2 == 1})
	}
	s, err := ReadStaircase(drops, 0.5)
	if err != nil || math.Abs(s.H50-1.75) > 1e-12 || len(s.Warnings) != 1 || !strings.Contains(s.Warnings[0], "half-failure height only") {
		t.Errorf("%+v, %v", s, err)
	}
	if s, err := ReadStaircase(HandDrops()[:8], 0.1); err != nil || !strings.Contains(s.Warnings[0], "8 drops") {
		t.Errorf("%+v, %v", s, err)
	}
}

func TestPlanRefusals(t *testing.T) {
	half := func() float64 { return 0.5 }
	for want, f := range map[string]func() ([]Drop, error){
		"half-failure height 0": func() ([]Drop, error) { return PlanStaircase(0, 0.1, 1, 0.1, 9, half) },
		"standard deviation 0":  func() ([]Drop, error) { return PlanStaircase(1, 0, 1, 0.1, 9, half) },
		"step 0 m":              func() ([]Drop, error) { return PlanStaircase(1, 0.1, 1, 0, 9, half) },
		"0 packs":               func() ([]Drop, error) { return PlanStaircase(1, 0.1, 1, 0.1, 0, half) },
		"no source":             func() ([]Drop, error) { return PlanStaircase(1, 0.1, 1, 0.1, 9, nil) },
		"drop 1: height -1 m":   func() ([]Drop, error) { return PlanStaircase(1, 0.1, -1, 0.1, 9, half) },
		"gave 2, want 0..1":     func() ([]Drop, error) { return PlanStaircase(1, 0.1, 1, 0.1, 9, func() float64 { return 2 }) },
		"outside 0.01..10 m":    func() ([]Drop, error) { return PlanStaircase(0.001, 0.001, 1, 0.1, 19, func() float64 { return 0 }) },
	} {
		if _, err := f(); err == nil || !strings.Contains(unit.Spell(err.Error(), unit.EU), want) {
			t.Errorf("%q: %v", want, err)
		}
	}
}
