package run

import (
	"fmt"
	"math"

	"costrel/figure"
	"costrel/physics/oven"
	"costrel/physics/resin"
	"costrel/project/design"
	"costrel/unit"
)

// Reheated is the preform at the moment of blowing.
type Reheated struct {
	Field *oven.Field
	Run   *oven.Result // of the lamps; nil where the card gives the temperatures
}

// reheatStage heats the preform by lamps, or takes the temperatures of the
// process card.
var reheatStage = stage{
	name: "reheat", full: true, needs: []string{"preform"},
	reads: func(d *design.Design) any { return []any{d.Oven, d.Resin.Grade} },
	keys:  []string{"reheat.temperature.mean", "reheat.temperature.spread", "reheat.temperature.step", "reheat.haze", "reheat.coupling"},
	run: func(c *pass) (any, error) {
		d := c.d
		pre := from[*Preform](c, "preform")
		grade, err := resin.Find(d.Resin.Grade)
		if err != nil {
			return nil, err
		}
		if d.Oven.Lamps == "card" {
			return reheatByCard(c, pre, grade)
		}
		set := oven.Default()
		set.Zones = make([]float64, len(d.Oven.Zones))
		for i, z := range d.Oven.Zones {
			set.Zones[i] = z.Power
		}
		if len(set.Zones) == 0 {
			return nil, fmt.Errorf("reheat: no lamp zones; give oven.zones, or temperatures: card")
		}
		set.Overall, set.Ventilation = d.Oven.Overall, d.Oven.Ventilation
		set.Inlet, set.HeatTime, set.SoakTime = d.Oven.Inlet, d.Oven.HeatTime, d.Oven.SoakTime
		o, err := oven.New(pre.Body, grade, set)
		if err != nil {
			return nil, err
		}
		coupling, r, err := heat(o, d)
		if err != nil {
			return nil, err
		}
		if w := oven.CouplingWarning(coupling); w != "" {
			r.Warnings = append(r.Warnings, w)
		}
		inputs := []figure.Input{
			c.given("T", "oven.mean_temperature"), c.given("P", "oven.overall"), c.given("v", "oven.ventilation"), c.given("t", "oven.heat_time"), c.given("t_s", "oven.soak_time"),
			c.given("T_0", "oven.inlet_temperature"), c.given("w", "preform.wall"),
		}
		how := "the light that arrives is scaled until the mean is that of the process card"
		if d.Oven.Lamps == "power" {
			how, inputs = "the power as it is set decides", inputs[1:]
		}
		origin := func(method, equation string) figure.Origin {
			return figure.Origin{Method: method, Equation: equation, Sources: []string{"Zhang2020", "Planck1901", "ATHAS"}, Inputs: inputs, Warnings: r.Warnings, Theory: "oven"}
		}
		low, high := extremes(r.Field.Mean)
		c.figure("reheat.temperature.mean", float64(r.Mean), origin("Finite volumes through the wall, lamps as lines, 14 bands; "+how, "T_mean = ∫ T dm / m"))
		c.figure("reheat.temperature.spread", high-low, origin("Hottest less coldest slice, mean through the wall", "ΔT = max T(z) - min T(z)"))
		c.figure("reheat.temperature.step", bodyStep(r), origin("Outer less inner face in the middle of the body, at blow", "ΔT = T_out - T_in"))
		c.figure("reheat.coupling", coupling, origin("Light that arrives over light computed from the lamp data; 1 means the lamp data fit", "q = q_needed / q_computed"))
		_, haze := extremes(r.Haze)
		c.figure("reheat.haze", haze, origin("Crystallisation from the glass along the temperature history (Nakamura), largest place", "x = 1 - exp(-(∫ K dt)^n)"))
		alongPlots(c, r.Field, r.Slices)
		timePlot(c, r)
		return &Reheated{Field: r.Field, Run: r}, nil
	},
}

// heat runs the oven: as it is set, or with the light that brings the preform
// temperature of the card. It returns the light that arrives over that computed.
func heat(o *oven.Oven, d *design.Design) (float64, *oven.Result, error) {
	if d.Oven.Lamps == "power" {
		r, err := o.Run()
		return 1, r, err
	}
	return o.Scale(d.Oven.Mean, oven.Coupling)
}

// zonesUnused goes with temperatures of the card.
const zonesUnused = "zones, power, ventilation and times of the oven are not used: the temperatures are those of the process card; oven.temperatures lamps or power would use them"

func reheatByCard(c *pass, pre *Preform, grade resin.Grade) (any, error) {
	d := c.d
	grid := oven.Default().Grid
	f, err := oven.Imposed(pre.Body, grid, oven.Card{Inside: d.Oven.Inside, Mean: d.Oven.Mean, Outside: d.Oven.Outside, Tilt: d.Oven.Tilt, Bow: d.Oven.Bow, Skew: d.Oven.Skew})
	if err != nil {
		return nil, err
	}
	slices, err := oven.Slices(pre.Body, grid.Slices)
	if err != nil {
		return nil, err
	}
	warnings, err := oven.Judge(f, slices, grade)
	if err != nil {
		return nil, err
	}
	o := figure.Origin{
		Method: "Temperatures of the process card, with a straight tilt from neck to tip, a bow and a skew between", Equation: "T(x, s): parabola through T_in, T, T_out, with ΔT from neck to tip, ΔT_m half way and ΔT_s, -ΔT_s at 0.21 and 0.79 of the way", Sources: []string{"CommonPractice"}, Theory: "oven", Warnings: append(warnings, zonesUnused),
		Inputs: []figure.Input{c.given("T_in", "oven.inside_temperature"), c.given("T", "oven.mean_temperature"), c.given("T_out", "oven.outside_temperature"), c.given("ΔT", "oven.tilt"), c.given("ΔT_m", "oven.bow"), c.given("ΔT_s", "oven.skew")},
	}
	c.figure("reheat.temperature.mean", float64(f.Average()), o)
	c.figure("reheat.temperature.step", float64(d.Oven.Outside-d.Oven.Inside), o)
	alongPlots(c, f, slices)
	return &Reheated{Field: f}, nil
}

func extremes(x []float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, v := range x {
		low, high = math.Min(low, v), math.Max(high, v)
	}
	return low, high
}

// bodyStep returns outer less inner face of the middle slice of the body.
func bodyStep(r *oven.Result) float64 {
	first, last := -1, -1
	for i, s := range r.Slices {
		if s.Part == oven.Body {
			if first < 0 {
				first = i
			}
			last = i
		}
	}
	i := (first + last) / 2
	if first < 0 {
		i = len(r.Slices) / 2
	}
	return r.Field.Outside[i] - r.Field.Inside[i]
}

// alongPlots draws the temperature along the preform, and through its wall at
// neck, middle and tip.
func alongPlots(c *pass, f *oven.Field, slices []oven.Slice) {
	n := len(f.S)
	x := make([]float64, n) // below the ledge, rising
	in, mean, out := make([]float64, n), make([]float64, n), make([]float64, n)
	for i := range n {
		j := n - 1 - i // slices run from the gate
		x[i], in[i], mean[i], out[i] = slices[j].BelowLedge, f.Inside[j], f.Mean[j], f.Outside[j]
	}
	down := Axis{Label: "below the ledge", Kind: unit.Length, Unit: "mm"}
	temperature := Axis{Label: "temperature", Kind: unit.TemperaturePoint}
	c.plot(Plot{Key: "reheat.along", Title: "Preform temperature at blow", X: down, Y: temperature, Series: []Series{{Name: "inside", X: x, Y: in}, {Name: "mean", X: x, Y: mean}, {Name: "outside", X: x, Y: out}}})
	cells := len(f.Edge) - 1
	depth := make([]float64, cells)
	for j := range cells {
		depth[j] = (f.Edge[j] + f.Edge[j+1]) / 2
	}
	through := Axis{Label: "depth in the wall, inside to outside", Kind: unit.Ratio}
	wall := Plot{Key: "reheat.through", Title: "Temperature through the wall at blow", X: through, Y: temperature}
	for _, at := range []struct {
		name  string
		slice int
	}{{"under the ledge", n - 1}, {"middle", n / 2}, {"gate", 0}} {
		wall.Series = append(wall.Series, Series{Name: at.name, X: depth, Y: f.T[at.slice]})
	}
	c.plot(wall)
	m := Map{Key: "reheat.map", Title: "Temperature through the wall at blow", X: down, Y: through, V: temperature, AtX: x, AtY: depth, Value: make([]Numbers, cells)}
	for j := range cells {
		m.Value[j] = make(Numbers, n)
		for i := range n {
			m.Value[j][i] = f.T[n-1-i][j]
		}
	}
	c.field(m)
}

// timePlot draws the middle of the body on its way through the oven.
func timePlot(c *pass, r *oven.Result) {
	c.plot(Plot{
		Key: "reheat.time", Title: "Middle of the body over time", X: Axis{Label: "time", Kind: unit.Time, Unit: "s"}, Y: Axis{Label: "temperature", Kind: unit.TemperaturePoint},
		Series: []Series{{Name: "inside", X: r.Body.Time, Y: r.Body.Inside}, {Name: "mean", X: r.Body.Time, Y: r.Body.Mean}, {Name: "outside", X: r.Body.Time, Y: r.Body.Outside}},
	})
}
