package aql

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestTableIsWhole(t *testing.T) {
	aqls, err := AQLs()
	if err != nil {
		t.Fatal(err)
	}
	if len(aqls) != 26 || aqls[0] != 0.01 || aqls[25] != 1000 {
		t.Fatalf("AQLs %v", aqls)
	}
	for _, i := range []Inspection{Normal, Tightened, Reduced} {
		for _, l := range "ABCDEFGHJKLMNPQR" {
			for _, a := range aqls {
				p, err := Single(i, string(l), a)
				if err != nil {
					t.Fatal(err)
				}
				if p.N < 2 || p.Ac < 0 || p.Re <= p.Ac || i != Reduced && p.Re != p.Ac+1 {
					t.Errorf("%+v", p)
				}
				if a <= 10 && p.Ac >= p.N {
					t.Errorf("accepts everything: %+v", p)
				}
			}
		}
	}
	plans, err := variables()
	if err != nil || len(plans) != 14*11 {
		t.Fatalf("%d plans by variables, %v", len(plans), err)
	}
}

// A lot at the AQL is accepted with a high probability, a tightened plan
// accepts less, a reduced one more.
func TestSeverities(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		aqls, err := AQLs()
		if err != nil {
			t.Fatal(err)
		}
		aql := aqls[rapid.IntRange(0, 15).Draw(t, "aql")]
		letter := string("ABCDEFGHJKLMNPQR"[rapid.IntRange(0, 15).Draw(t, "letter")])
		var pa [3]float64
		for i, s := range []Inspection{Tightened, Normal, Reduced} {
			p, err := Single(s, letter, aql)
			if err != nil {
				t.Fatal(err)
			}
			if pa[i], err = p.Acceptance(aql / 100); err != nil {
				t.Fatal(err)
			}
		}
		if pa[1] < 0.85 || pa[0] > pa[1]+1e-12 || pa[2] < pa[1]-1e-12 {
			t.Fatalf("letter %s, AQL %g: acceptance %v", letter, aql, pa)
		}
	})
}

func TestFractionInvertsAcceptance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 1000).Draw(t, "n")
		p := Plan{N: n, Ac: rapid.IntRange(0, n-1).Draw(t, "ac"), AQL: rapid.SampledFrom([]float64{1, 15}).Draw(t, "aql")}
		p.Re = p.Ac + 1
		pa := rapid.Float64Range(0.01, 0.99).Draw(t, "pa")
		f, err := p.FractionAt(pa)
		if err != nil {
			t.Fatal(err)
		}
		got, err := p.Acceptance(f)
		if err != nil || math.Abs(got-pa) > 1e-9 {
			t.Fatalf("acceptance %g at %g, want %g (%v)", got, f, pa, err)
		}
	})
}

func TestForLot(t *testing.T) {
	p, err := ForLot(100, II, 0.10, Normal)
	if err != nil || !p.All || p.N != 100 || p.Ac != 0 {
		t.Errorf("%+v, %v", p, err)
	}
	if d, err := (Plan{N: 80, Ac: 2, Re: 5, AQL: 1}).Decide(3); d != AcceptNormal || err != nil {
		t.Errorf("between: %s, %v", d, err)
	}
	if _, err := (Plan{N: 8, Ac: 2, Re: 3, AQL: 1}).Decide(9); err == nil {
		t.Error("9 of 8: no error")
	}
	for _, err := range []error{
		second(CodeLetter(1, II)), second(CodeLetter(10, "IV")), second(Single(Normal, "I", 1)), second(Single(Normal, "A", 1.1)), second(Variables("Z", 1)),
	} {
		if err == nil {
			t.Error("no error")
		}
	}
	if l, err := CodeLetter(500001, III); l != "R" || err != nil {
		t.Errorf("largest lots: %s, %v", l, err)
	}
}

func second[T any](_ T, err error) error { return err }

func TestSwitching(t *testing.T) {
	plan := func(i Inspection) Plan {
		p, err := Single(i, "K", 1.0) // normal 125, accept 3
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	run := func(s State, bad ...int) (State, string) {
		t.Helper()
		var why string
		for _, n := range bad {
			next, w, err := s.Next(Lot{Plan: plan(s.Inspection), Nonconforming: n, Steady: true})
			if err != nil {
				t.Fatal(err)
			}
			s, why = next, w
		}
		return s, why
	}
	if s, why := run(Start(ISO), 9, 0, 0, 0, 9); s.Inspection != Tightened || why == "" {
		t.Errorf("2 of 5: %+v %q", s, why)
	}
	if s, _ := run(Start(ISO), 9, 0, 0, 0, 0, 9); s.Inspection != Normal {
		t.Errorf("2 of 6: %+v", s)
	}
	tight := State{Scheme: ISO, Inspection: Tightened}
	if s, _ := run(tight, 0, 0, 0, 0, 0); s.Inspection != Normal {
		t.Errorf("5 accepted: %+v", s)
	}
	s, _ := run(tight, 9, 0, 9, 9, 0, 9, 9)
	if !s.Stopped {
		t.Errorf("5 rejected: %+v", s)
	}
	if _, _, err := s.Next(Lot{Plan: plan(Tightened)}); err == nil {
		t.Error("after the stop: no error")
	}
	// Ac 3: three a lot where the next tighter AQL (Ac 2) accepts too.
	if s, _ := run(Start(ISO), 2, 2, 2, 2, 2, 2, 2, 2, 2); s.Inspection != Normal || s.Score != 27 {
		t.Errorf("nine lots: %+v", s)
	}
	if s, _ := run(Start(ISO), 2, 2, 2, 2, 2, 2, 2, 2, 2, 2); s.Inspection != Reduced {
		t.Errorf("ten lots: %+v", s)
	}
	if s, _ := run(Start(ISO), 2, 2, 3); s.Score != 0 {
		t.Errorf("a lot that the tighter AQL rejects: score %d", s.Score)
	}
	if s, _ := run(Start(MIL), 3, 3, 3, 3, 3, 3, 3, 3, 3, 3); s.Inspection != Reduced {
		t.Errorf("ten in a row: %+v", s)
	}
	red := State{Scheme: MIL, Inspection: Reduced}
	p := plan(Reduced)
	if s, why := run(red, p.Ac+1); s.Inspection != Normal || why == "" {
		t.Errorf("in the gap: %+v", s)
	}
	if _, _, err := red.Next(Lot{Plan: plan(Normal)}); err == nil {
		t.Error("another severity: no error")
	}
}

func TestVariables(t *testing.T) {
	p, err := Variables("J", 1.0)
	if err != nil {
		t.Fatal(err)
	}
	good, err := p.Acceptance(0.01)
	if err != nil || good < 0.85 {
		t.Errorf("acceptance at the AQL %g, %v", good, err)
	}
	bad, err := p.Acceptance(0.10)
	if err != nil || bad > 0.10 {
		t.Errorf("acceptance at 10 %% %g, %v", bad, err)
	}
	// One-sided by k and by M are the same decision.
	m, err := p.M()
	if err != nil {
		t.Fatal(err)
	}
	for _, q := range []float64{1.5, 1.88, 1.90, 2.4} {
		f, err := EstimatedFraction(q, p.N)
		if err != nil {
			t.Fatal(err)
		}
		ok, err := p.Accepts(q, 1, 0, math.Inf(1))
		if err != nil || ok != (f <= m) {
			t.Errorf("q %g: accepted %t, estimated %g against %g (%v)", q, ok, f, m, err)
		}
	}
	if ok, err := p.Accepts(0, 1, -1.95, 1.95); ok || err != nil {
		t.Errorf("both tails add up: %t, %v", ok, err)
	}
	if _, err := p.Accepts(0, 0, -1, 1); err == nil {
		t.Error("no spread: no error")
	}
}
