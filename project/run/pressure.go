package run

import (
	"errors"
	"fmt"

	"costrel/figure"
	"costrel/physics/climate"
	"costrel/physics/drink"
	"costrel/project/design"
	"costrel/unit"
)

// Pressures is the pack's pressure along its way.
type Pressures struct {
	Liquid           drink.Liquid
	Pack             drink.Pack // closed pack as filled
	Open             bool       // held at its carbonation instead of closed
	Fill, Store, Hot unit.GaugePressure
	FillAmbient      unit.AbsPressure
	SaleAmbient      unit.AbsPressure
	StoreCO2         float64 // partial pressure of CO2 in store [Pa]
	Warnings         []string
}

var pressureStage = stage{
	name:  "pressure",
	needs: []string{"bottle", "wall"},
	reads: func(d *design.Design) any {
		return []any{d.Brief.Product, d.Brief.Nominal, d.Drink, d.Climate, d.Brief.ShelfLife}
	},
	keys: []string{"pack.pressure.fill", "pack.pressure.store", "pack.pressure.hot"},
	run: func(c *pass) (any, error) {
		d := c.d
		carbonated := d.Drink.Carbonation != nil && *d.Drink.Carbonation > 0
		if hotFilled(d) {
			return nil, skip("a hot-filled pack takes vacuum: see hotfill.vacuum")
		}
		if !carbonated && d.Drink.Nitrogen == 0 {
			return nil, skip("the drink holds no gas: neither carbonation nor nitrogen is given")
		}
		shape := from[*Shape](c, "bottle")
		wall := from[*Wall](c, "wall")
		// The open chart is that of the drink and its gas alone; in the closed
		// pack the dissolved air takes part.
		open := carbonated && d.Drink.Pack == "open"
		content := drinkOf(d)
		if !open {
			content = drinkWithAir(d)
		}
		liquid, err := content.Liquid()
		if err != nil {
			return nil, err
		}
		out := &Pressures{Liquid: liquid, Open: open}
		if out.FillAmbient, err = climate.Pressure(d.Climate.AltitudeFill); err != nil {
			return nil, err
		}
		if out.SaleAmbient, err = climate.Pressure(d.Climate.AltitudeSale); err != nil {
			return nil, err
		}
		out.Pack = drink.Pack{
			Fill: d.Brief.Nominal * liquid.Density(unit.Celsius(20)) / liquid.Density(d.Drink.FillTemperature), Brimful: shape.Brimful, FillT: d.Drink.FillTemperature, ReferenceT: d.Drink.Reference,
			Ambient: out.FillAmbient, Air: d.Drink.Air, NitrogenDose: d.Drink.Nitrogen / drink.MolarMassNitrogen, Growth: wall.Growth, Stated: drink.Sealed,
		}
		if !carbonated {
			out.Pack.Air = 1
		}
		var store drink.Pressure
		if why := overfull(d, shape.Brimful); why != "" {
			return nil, errors.New(why)
		}
		var failed error
		at := func(key, path string, t unit.Temperature, place vent) unit.GaugePressure {
			var why string
			var more []figure.Input
			var p drink.Pressure
			var err error
			o := figure.Origin{Sources: []string{liquid.Law().Source}, Theory: "drink"}
			if !carbonated {
				o.Sources = []string{"IAPWSG704"}
			}
			if open {
				if p, err = liquid.Open(t, place.ambient); err == nil {
					why, more = openWhy(liquid, t, place, p)
				}
				o.Method = "Pressure over the drink held at its carbonation (open chart), " + liquid.Law().Title
			} else {
				var st drink.State
				if st, err = closed(liquid, out.Pack, t, place.ambient); err == nil {
					p = st.Pressure
					why, more = closedWhy(liquid, out.Pack, t, place, st)
				}
				o.Method = "Gas shared between drink and headspace of the closed pack, which grows with pressure"
				if carbonated {
					o.Method += "; " + liquid.Law().Title
				} else {
					o.Warnings = append(o.Warnings, "in balance, hours after dosing; right after dosing the nitrogen stands in the headspace alone and the pressure is higher")
				}
			}
			if err != nil {
				c.problem(key, "%v", err)
				failed = fmt.Errorf("%s: %w", key, err)
				return 0
			}
			if key == "pack.pressure.store" {
				store = p
			}
			o.Inputs = []figure.Input{c.given("T", path)}
			if path != "climate.hot" && path != "climate.store" && path != "drink.fill_temperature" {
				o.Inputs[0] = figure.Input{Key: "design:" + path, Symbol: "T", Label: "Climate: hottest stretch of the lane, day and season included", Value: float64(t), Kind: unit.TemperaturePoint, Origin: figure.Computed}
			}
			if carbonated {
				o.Inputs = append(o.Inputs, c.given("c", "drink.carbonation"))
			} else {
				o.Inputs = append(o.Inputs, c.given("m_N2", "drink.nitrogen"))
			}
			o.Equation = why
			o.Inputs = append(append(o.Inputs, more...), c.given("sugar", "drink.sugar"))
			if !open {
				share := c.given("air", "drink.headspace_air")
				if !carbonated {
					share.Value, share.Origin, share.Label = 1, figure.Assumed, "Drink: headspace of a still pack, air"
				}
				o.Inputs = append(o.Inputs, c.input("V", "bottle.volume.brimful"), c.given("V_fill", "brief.nominal"), share, c.given("c_N2", "drink.nitrogen_dissolved"), c.given("c_O2", "drink.oxygen_dissolved"), c.input("t", "wall.panel.mean"), c.given("E", "shelf.modulus"))
			}
			o.Warnings = append(o.Warnings, p.Warnings...)
			c.figure(key, float64(p.Gauge), o)
			return p.Gauge
		}
		filler, sale := vent{"climate.altitude_fill", out.FillAmbient}, vent{"climate.altitude_sale", out.SaleAmbient}
		out.Fill = at("pack.pressure.fill", "drink.fill_temperature", d.Drink.FillTemperature, filler)
		out.Store = at("pack.pressure.store", "climate.store", d.Climate.Store, sale)
		hot, path := hottest(d)
		out.Hot = at("pack.pressure.hot", path, hot, sale)
		if failed != nil {
			return nil, failed // a pressure that is not known must not reach a force or a stress
		}
		out.StoreCO2 = store.CO2
		pressurePlot(c, out, open)
		return out, nil
	},
}

// closed returns the pack filled and closed at one place, in equilibrium at t
// under the ambient pressure of another.
func closed(l drink.Liquid, p drink.Pack, t unit.Temperature, ambient unit.AbsPressure) (drink.State, error) {
	contents, err := p.Contents(l)
	if err != nil {
		return drink.State{}, err
	}
	vessel := p.Vessel(t)
	vessel.Ambient = ambient
	return l.Equilibrium(contents, vessel, t)
}

// drinkOf returns the drink of a design as the physics wants it.
func drinkOf(d *design.Design) drink.Drink {
	out := drink.Drink{Sugar: d.Drink.Sugar, Law: d.Drink.Solubility, Basis: drink.Basis(d.Drink.Basis), Rule: drink.PerWater}
	if d.Drink.Carbonation != nil {
		out.Carbonation = *d.Drink.Carbonation
	}
	if d.Drink.SugarRule == "linear" {
		out.Rule, out.SugarSlope = drink.Linear, d.Drink.SugarSlope
	}
	return out
}

func hotFilled(d *design.Design) bool { return d.Brief.Product == "hotfill" }

// pressurePlot draws the pressure of the pack over temperature.
func pressurePlot(c *pass, p *Pressures, open bool) {
	if !c.work.drawn {
		return
	}
	t := span(float64(unit.Celsius(2)), float64(unit.Celsius(60)), 30)
	y := make([]float64, len(t))
	for i := range t {
		var err error
		var st drink.State
		if open {
			st.Pressure, err = p.Liquid.Open(unit.Temperature(t[i]), p.SaleAmbient)
		} else {
			st, err = closed(p.Liquid, p.Pack, unit.Temperature(t[i]), p.SaleAmbient)
		}
		if err != nil {
			t, y = t[:i], y[:i]
			break
		}
		y[i] = float64(st.Gauge)
	}
	d := c.d
	warmest, _ := hottest(d)
	c.plot(Plot{
		Key: "pressure.temperature", Title: "Pressure of the pack", X: Axis{Label: "temperature", Kind: unit.TemperaturePoint}, Y: Axis{Label: "pressure", Kind: unit.PressureGauge},
		Series: []Series{{Name: "pack", X: t, Y: y}},
		Marks:  []Mark{{At: float64(d.Drink.FillTemperature), Label: "fill"}, {At: float64(d.Climate.Store), Label: "store"}, {At: float64(warmest), Label: "hot lane"}},
	})
}
