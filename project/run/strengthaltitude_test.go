package run

import (
	"math"
	"slices"
	"strings"
	"testing"

	"costrel/figure"
	"costrel/physics/shell"
)

// The pack goes up from the state in which it stands in the stack: closed, its gas
// in balance with the bottle as it has grown, under either model of pressure. The
// gas that swells is that of the grown bottle.
func TestAltitudeStartsAsTheStack(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	d := example(t, "sorrel-lime.yaml").Design.Clone()
	last := 0.0
	for _, model := range []string{"open", "closed"} {
		d.Drink.Pack = model
		x := testsOf(t, d)
		x.altitude()
		up := x.last("altitude.pressure")
		if up == nil {
			t.Fatal(x.problems)
		}
		sealed, err := x.pressures.sealed(d.Handling.Lab)
		if err != nil {
			t.Fatal(err)
		}
		in := shell.TopLoadInput{Bottle: x.b, Fill: shell.Filled, Soft: x.labSoft, Sealed: sealed, Headspace: x.shape.Brimful - d.Brief.Nominal, Brief: true}
		in.Quick = true
		stack, err := shell.TopLoad(in)
		if err != nil {
			t.Fatal(err)
		}
		if p, q := inputOf(t, *up, "p"), stack.Course[0].Pressure; math.Abs(p/q-1) > 2e-3 {
			t.Errorf("%s: up from %g Pa, the stack from %g Pa", model, p, q)
		}
		if gas := inputOf(t, *up, "V_gas"); gas < 1.2*in.Headspace {
			t.Errorf("%s: %g m³ of gas, %g in the bottle unloaded", model, gas, in.Headspace)
		}
		// The drink of the open chart holds no dissolved air.
		if last != 0 && math.Abs(up.Value/last-1) > 0.01 {
			t.Errorf("open %g Pa, closed %g Pa", last, up.Value)
		}
		last = up.Value
	}
	words := map[string]bool{}
	for _, v := range []vent{{"climate.altitude_sale", 1e5}, {"handling.altitude", 8e4}, {"climate.altitude_fill", 1e5}} {
		words[v.input("p").Label] = true
	}
	if len(words) != 3 {
		t.Errorf("the air of three places has %d names", len(words))
	}
}

// The growth of a hot-filled pack on its way up has a band of what makes it: its
// panels and its vacuum, and the round wall alone where the panels stand out. The ends
// of the range of the panels lie inside.
func TestAltitudeOfAHotPackFollowsItsPanels(t *testing.T) {
	if testing.Short() {
		t.Skip("blows a bottle")
	}
	d := example(t, "wrenhollow.yaml").Design.Clone()
	x := testsOf(t, d)
	growth := func() figure.Figure {
		t.Helper()
		x.figures = nil
		x.altitude()
		for _, f := range x.figures {
			if f.Key == "altitude.growth" {
				return f
			}
		}
		t.Fatal(x.problems)
		return figure.Figure{}
	}
	labels := func(f figure.Figure) (all []string) {
		for _, e := range f.Effects {
			all = append(all, e.Label)
		}
		return all
	}
	f, given := growth(), d.HotFill.Compliance
	if c := inputOf(t, f, "C"); c != given {
		t.Errorf("compliance %g of %g in the chain", c, given)
	}
	if got := labels(f); !slices.Equal(got, []string{"Compliance of the panels", "Vacuum of the cooled pack"}) {
		t.Errorf("effects %q", got)
	}
	for _, by := range []float64{-0.15, 0.15} {
		d.HotFill.Compliance = given * (1 + by)
		g := growth()
		if d.HotFill.Compliance = given; g.Value < f.Lo || g.Value > f.Hi || g.Value == f.Value {
			t.Errorf("panels %+.0f %% grow by %g, band %g .. %g", 100*by, g.Value, f.Lo, f.Hi)
		}
	}
	d.Handling.Modulus *= 1.5
	if g := growth(); g.Value != f.Value {
		t.Errorf("a stiffer wall of the tests: %g for %g", g.Value, f.Value)
	}
	d.Drink.Nitrogen = 36e-6
	if got := labels(growth()); !slices.Contains(got, "Wall") || slices.Contains(got, "Compliance of the panels") {
		t.Errorf("under pressure all along: %q", got)
	}
	// Panels of the vacuum test are those of the round wall: it holds the little vacuum
	// that nitrogen leaves, not that of a hot fill without.
	d.Drink.Nitrogen = 26e-6
	f = growth()
	d.HotFill.PanelSource = "computed"
	x.vacuum()
	if g := growth(); g.Value > 0.5*f.Value || !slices.Contains(labels(g), stiffnessLaw(d).label) {
		t.Errorf("the round wall alone: %g for %g by panels; %q", g.Value, f.Value, labels(g))
	}
	d.Drink.Nitrogen = 0
	x.figures, x.problems = nil, nil
	for _, test := range []func(){x.topLoads, x.altitude} {
		test()
	}
	for _, key := range []string{"topload.filled", "stack.capacity", "altitude.pressure", "altitude.growth"} {
		if !slices.ContainsFunc(x.problems, func(p Problem) bool { return p.Key == key && strings.Contains(p.Reason, "its wall collapses at") }) {
			t.Errorf("%s of a pack whose round wall cannot hold its vacuum: %+v", key, x.problems)
		}
	}
}
