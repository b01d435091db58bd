package run

import (
	"math"

	"costrel/figure"
	"costrel/physics/drink"
	"costrel/physics/finish"
	"costrel/physics/inject"
	"costrel/physics/resin"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// dry stands for resin without water: the estimate takes 0 for "not said".
const dry = 1e-9

// ledgeDiameter stands for the ledge of a finish whose card gives none.
const ledgeDiameter = 33e-3 // m, of the 28 mm necks

var injectStage = stage{
	name: "inject", needs: []string{"preform"},
	reads: func(d *design.Design) any {
		return []any{d.Resin, d.Finish.Type, d.Preform.Wall, d.Inject, d.Brief.Product, d.Drink.Sugar}
	},
	keys: []string{"inject.cooling.time", "inject.cycle", "inject.fill.time", "inject.clamp", "inject.acetaldehyde", "inject.iv"},
	run: func(c *pass) (any, error) {
		d := c.d
		pre := from[*Preform](c, "preform")
		grade, err := resin.Find(d.Resin.Grade)
		if err != nil {
			return nil, err
		}
		ledge := ledgeDiameter
		if f, err := finish.Find(d.Finish.Type); err == nil && f.LedgeOD > 0 {
			ledge = f.LedgeOD
		}
		r, err := inject.Estimate(pre.Body, grade, inject.Spec{
			Ledge: ledge, Cavities: d.Inject.Cavities, IV: d.Resin.IV, Melt: d.Inject.Melt, Face: d.Inject.Face, Residence: d.Inject.Residence, Water: math.Max(d.Inject.Moisture, dry),
			StillWater: d.Brief.Product == "still" && d.Drink.Sugar == 0,
		})
		if err != nil {
			return nil, err
		}
		estimate := []string{quality.EstimatePrefix + ": moulding by rules of thumb"}
		wall, iv := c.given("w", "preform.wall"), c.given("IV_0", "resin.iv")
		cards := inject.Cards()
		// card returns a value of the moulding cards, which no design sets.
		card := func(symbol, name, key string) figure.Input {
			d, _ := cards[name].Get(key)
			return assumed("preform.wall", symbol, "Moulding: "+d.Label, d.Value, d.Kind, d.Source)
		}
		spent := card("drop", "viscosity", "drop")
		water, err := resin.Hydrolysis(d.Resin.IV, math.Max(d.Inject.Moisture, dry))
		if err != nil {
			return nil, err
		}
		before, err := resin.NumberMass(d.Resin.IV)
		if err != nil {
			return nil, err
		}
		after, err := resin.NumberMass(water)
		if err != nil {
			return nil, err
		}
		add := func(key string, v float64, method, equation string, sources []string, inputs ...figure.Input) {
			c.figure(key, v, figure.Origin{Method: method, Equation: equation, Sources: sources, Inputs: inputs, Warnings: append(append([]string{}, estimate...), r.Warnings...), Theory: "inject"})
		}
		// ranged adds to the figure made last what the range of its rule makes of it.
		ranged := func(r inject.Range, path, label, basis string) {
			f := &c.figures[len(c.figures)-1]
			f.Effects = []figure.Effect{{Path: path, Label: label, Low: r.Low - r.Value, High: r.High - r.Value, Basis: basis}}
			lay(f)
		}
		add("inject.cooling.time", r.Mean110, "Plate cooled from both faces, first term of the series", "t = w² / (π² α) ln(8 / π² (T_melt - T_face) / (T - T_face))", []string{"BallmanShusman1959"},
			wall, card("α", "cooling", "diffusivity"), c.given("T_melt", "inject.melt_temperature"), c.given("T_face", "inject.mould_temperature"), card("T", "cooling", "eject"))
		add("inject.cycle", r.Cycle.Value, "0.6 to 0.8 of the cooling in the mould and 2 to 3 s besides", "t_cycle = k t + t_dry", []string{"BallmanShusman1959", "BrandauCycles"},
			c.input("t", "inject.cooling.time"), card("k", "cooling", "share"), card("t_dry", "cooling", "dry"))
		ranged(r.Cycle, "preform.wall", "Moulding: share of the cooling and time without", "0.6 to 0.8 of the cooling and 2 to 3 s, common practice")
		add("inject.fill.time", r.Fill.Value, "8 to 12 g/s a cavity up to a wall of ‹4 mm›", "t_fill = m / q", []string{"BrandauCycles"},
			c.input("m", "preform.mass"), assumed("preform.wall", "q", "Moulding: fill rate of one cavity at this wall", pre.Mass/r.Fill.Value, unit.MassPerVolumeRate, "BrandauCycles"), wall)
		ranged(r.Fill, "preform.wall", "Moulding: fill rate of one cavity", "8 to 12 g/s up to a wall of ‹4 mm›, trade text")
		add("inject.clamp", r.Clamp.Value, "Pressure in the cavity on the projected area of the ledges", "F = n p π d² / 4", []string{"CommonPractice"},
			c.given("n", "inject.cavities"), card("p", "filling", "cavity_pressure"), assumed("finish.type", "d", "Finish: largest diameter, of the ledge", ledge, unit.Length, ""))
		ranged(r.Clamp, "finish.type", "Moulding: pressure in the cavity", "‹25 to 35 MPa›, common practice, from memory")
		rate := card("A", "aldehyde", "factor_melt")
		rate.Value, rate.Kind = rate.Value*1e-6, unit.StrainRate // the card counts ppm a second
		add("inject.acetaldehyde", r.Aldehyde, "Zero-order rate in the melt, times the factor of today's resins", "C = k A exp(-E / (R T)) t", []string{"Halek1986"},
			card("k", "aldehyde", "resin"), rate, card("E", "aldehyde", "activation_melt"), c.given("T", "inject.melt_temperature"), c.given("t", "inject.residence"))
		if k, ok := cards["aldehyde"].Get("resin"); ok {
			ranged(inject.Range{Low: r.Aldehyde * k.Low / k.Value, Value: r.Aldehyde, High: r.Aldehyde * k.High / k.Value}, "resin.grade", "Resin: its rate over that of 1986", "0.1 to 0.4, common practice; the upper end is used")
		}
		add("inject.iv", r.IV.Value, "Lower bound: every molecule of the water left in the resin cuts a chain; at least 0.02 dL/g in practice", "IV = min(IV_0 - drop, IV_w), IV_w = IV_0 (M / M_0)^0.82, 1 / M = 1 / M_0 + w / M_w", []string{"Billmeyer1949", "CommonPractice"},
			iv, spent, computed("resin.iv", "IV_w", "Viscosity after all the water has cut chains", water, unit.IntrinsicViscosity),
			c.given("w", "inject.moisture"),
			assumed("resin.iv", "M_w", "Water: molar mass", drink.MolarMassWater, unit.MolarMass, ""),
			computed("resin.iv", "M_0", "Number-average molar mass as fed", before, unit.MolarMass), computed("resin.iv", "M", "Number-average molar mass after", after, unit.MolarMass))
		ranged(r.IV, "inject.moisture", "Resin: share of the water that cuts chains", "from all of it to the 0.01 dL/g that well dried resin loses at least, from memory")
		coolingPlot(c, r.Mean110)
		return &r, nil
	},
}

// coolingPlot draws the body wall as it cools in the mould and after.
func coolingPlot(c *pass, eject float64) {
	w := inject.DefaultCooling(c.d.Preform.Wall)
	w.Melt, w.Face = c.d.Inject.Melt, c.d.Inject.Face
	time, mean, middle := w.Curve(2*eject, 81)
	c.plot(Plot{
		Key: "inject.cooling", Title: "Body wall in the mould, both faces held", X: Axis{Label: "time", Kind: unit.Time, Unit: "s"}, Y: Axis{Label: "temperature", Kind: unit.TemperaturePoint},
		Series: []Series{{Name: "mean", X: time, Y: mean}, {Name: "middle", X: time, Y: middle}},
		Marks:  []Mark{{At: eject, Label: "mean at ‹110 °C›"}},
	})
}
