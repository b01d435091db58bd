package run

import (
	"costrel/figure"
	"costrel/physics/climate"
	"costrel/plant/air"
	"costrel/project/design"
	"costrel/unit"
)

// Air is the blowing air of one bottle.
type Air struct {
	Gross, Net float64 // Nm³, trade convention
	Energy     float64 // J at the compressor
}

// Temperatures of the air. Chosen for this project.
const (
	airTemperature    = 20                    // °C, at the compressor
	chargeTemperature = unit.Temperature(300) // in the charged bottle, as the blow has it
)

var airStage = stage{
	name:  "air",
	needs: []string{"bottle", "preform"},
	reads: func(d *design.Design) any {
		return []any{d.Blow.High, d.Blow.DeadVolume, d.Blow.Recovery, d.Plant.AirEnergy, d.Climate.AltitudeFill, d.Resin.DensityWall, d.Finish.Mass}
	},
	keys: []string{"air.volume", "air.volume.net", "air.volume.strict", "air.energy.ideal", "air.energy"},
	run: func(c *pass) (any, error) {
		d := c.d
		shape := from[*Shape](c, "bottle")
		p := from[*Preform](c, "preform")
		ambient, err := climate.Pressure(d.Climate.AltitudeFill)
		if err != nil {
			return nil, err
		}
		outer := shape.Bottle.OuterVolume()
		shot := air.Shot{Bottle: outer, Dead: d.Blow.DeadVolume, Preform: preformInside(p.Body), Pressure: d.Blow.High, Ambient: ambient, Temperature: unit.Celsius(airTemperature)}
		out := &Air{}
		if out.Gross, err = air.Volume(air.TradeGauge, shot); err != nil {
			return nil, err
		}
		if out.Net, err = air.Net(out.Gross, d.Blow.Recovery); err != nil {
			return nil, err
		}
		inner := shot
		plastic := (p.Mass - d.Finish.Mass) / d.Resin.DensityWall
		inner.Bottle, inner.Temperature = outer-plastic, chargeTemperature
		strict, err := air.Volume(air.Strict, inner)
		if err != nil {
			return nil, err
		}
		work, err := air.Isothermal(shot.Temperature, ambient, d.Blow.High.Abs(ambient))
		if err != nil {
			return nil, err
		}
		volume := figure.Input{Key: "design:bottle.profile", Symbol: "V", Label: "Bottle: volume of the mould below the ledge", Value: outer, Kind: unit.Volume, Origin: figure.Computed}
		state := []figure.Input{
			computed("climate.altitude_fill", "p_a", "Ambient pressure at the altitude of filling", float64(ambient), unit.PressureAbs),
			assumed("plant.air_energy", "T", "Air at the compressor", float64(shot.Temperature), unit.TemperaturePoint, ""),
			assumed("plant.air_energy", "p_n", "Normal pressure", float64(unit.Atm), unit.PressureAbs, ""),
			assumed("plant.air_energy", "T_n", "Normal temperature", float64(unit.ZeroCelsius), unit.TemperaturePoint, ""),
		}
		c.figure("air.volume", out.Gross, figure.Origin{
			Method: "Mould volume and dead volume times gauge pressure in bar (trade convention)", Equation: "N = (V + V_dead) p / 1 bar", Sources: []string{"Brandau2019"}, Theory: "air",
			Inputs: []figure.Input{volume, c.given("V_dead", "blow.dead_volume"), c.given("p", "blow.high_blow")},
		})
		c.figure("air.volume.net", out.Net, figure.Origin{
			Method: "Air less the recovered share", Equation: "N_net = N (1 - r)", Sources: []string{"CommonPractice"}, Theory: "air",
			Inputs: []figure.Input{c.input("N", "air.volume"), c.given("r", "blow.air_recovery")},
		})
		c.figure("air.volume.strict", strict, figure.Origin{
			Method: "Amount of air drawn from the compressor, at ‹0 °C› and ‹1.01325 bar›: the inside of the bottle, the plastic taken off; the air of the preform counts", Equation: "N = ((V - V_w + V_dead) (p + p_a) - (V_dead + V_preform) p_a) T_n / (p_n T_b)", Sources: []string{"USStandardAtmosphere1976"}, Theory: "air",
			Inputs: append([]figure.Input{
				volume, c.given("V_dead", "blow.dead_volume"), c.given("p", "blow.high_blow"),
				computed("resin.density_wall", "V_w", "Bottle: volume of the plastic below the ledge", plastic, unit.Volume),
				assumed("blow.high_blow", "T_b", "Air in the charged bottle", float64(chargeTemperature), unit.TemperaturePoint, ""),
				computed("preform.body_length", "V_preform", "Preform: inside volume, full of ambient air at the start", shot.Preform, unit.Volume),
			}, state...),
		})
		ideal := out.Net * air.PerNormalVolume(work)
		c.figure("air.energy.ideal", ideal, figure.Origin{
			Method: "Isothermal work of compression of the net air", Equation: "E = N_net p_n (T / T_n) ln((p + p_a) / p_a)", Sources: []string{"MoranShapiro2006"}, Theory: "air",
			Inputs: append([]figure.Input{c.input("N_net", "air.volume.net"), c.given("p", "blow.high_blow")}, state...),
		})
		out.Energy = out.Net * d.Plant.AirEnergy
		o := figure.Origin{
			Method: "Measured energy per normal cubic metre times the net air", Equation: "E = N_net e", Sources: []string{"CommonPractice"}, Theory: "air",
			Inputs: []figure.Input{c.input("N_net", "air.volume.net"), c.given("e", "plant.air_energy")},
		}
		if out.Energy < ideal {
			o.Warnings = append(o.Warnings, "the compressor energy given is below the ideal work of compression; check plant.air_energy")
		}
		c.figure("air.energy", out.Energy, o)
		return out, nil
	},
}
