package run

import (
	"math"
	"testing"

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
