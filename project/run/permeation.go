package run

import (
	"costrel/figure"
	"costrel/physics/closure"
	"costrel/physics/drink"
	"costrel/physics/permeation"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// orientedFrom is the planar stretch above which the wall counts as oriented.
// Permeability falls abruptly at a moderate stretch of about 2 to 3 and hardly
// changes beyond it (SwaroopGordon1980); 3 is chosen for this project.
const orientedFrom = 3

var shelfStage = stage{
	name:  "shelf",
	needs: []string{"wall", "pressure", "bottle"},
	reads: func(d *design.Design) any {
		return []any{d.Shelf.Factor, d.Brief.ShelfLife, d.Climate.Store, d.Closure, d.Drink.Carbonation, d.Drink.Basis, d.Drink.Sugar, lossLimit(d)}
	},
	keys: []string{"shelf.loss.end", "shelf.loss.wall", "shelf.loss.closure", "shelf.life"},
	run: func(c *pass) (any, error) {
		d := c.d
		if !carbonated(d) {
			return nil, skip("the drink is not carbonated")
		}
		w, p, shape := from[*Wall](c, "wall"), from[*Pressures](c, "pressure"), from[*Shape](c, "bottle")
		t := d.Climate.Store
		oriented, amorphous, err := materials(d.Shelf.Factor)
		if err != nil {
			return nil, err
		}
		co2 := p.StoreCO2
		moles := p.Liquid.Content() * d.Brief.Nominal / drink.MolarMassCO2
		gas := (shape.Brimful - d.Brief.Nominal) * co2 / (unit.GasConstant * float64(t))
		capacity := (moles + gas) / co2
		cap, err := closure.Find(d.Closure.Type)
		if err != nil {
			return nil, err
		}
		cap.CO2 = d.Closure.CO2
		through, err := cap.Conductance(closure.CO2, t)
		if err != nil {
			return nil, err
		}
		// The permeability of the wall falls with pressure; it is taken at the
		// mean pressure of the shelf life, which the loss itself decides.
		var wall, loss, panel float64
		for range 4 {
			mean := co2 * (1 - loss/2)
			if wall, err = wallConductance(w, oriented, amorphous, t, mean); err != nil {
				return nil, err
			}
			if panel, err = oriented.CO2.Permeability(t, mean); err != nil {
				return nil, err
			}
			if loss, err = permeation.LossExponential(wall+through, capacity, d.Brief.ShelfLife); err != nil {
				return nil, err
			}
		}
		warnings := []string{
			quality.EstimatePrefix + ": first-order loss in a steady wall; what the wall takes up first and the growth of the pack are left out, which cost 1 to 2 points in the first weeks",
			wallNote,
		}
		inputs := []figure.Input{
			c.given("t", "brief.shelf_life"), c.given("T", "climate.store"), c.given("f", "shelf.barrier_factor"),
			{Key: "wall.panel.mean", Symbol: "K_wall", Label: "Wall: CO2 conductance, stretched and thick zones together", Value: wall, Kind: unit.GasConductance, Origin: figure.Computed},
			{Key: "design:closure.co2", Symbol: "K_closure", Label: "Closure: CO2 conductance at store temperature", Value: through, Kind: unit.GasConductance, Origin: figure.Computed},
			{Key: "pack.pressure.store", Symbol: "P_wall", Label: "Wall: permeability of the panel at the mean pressure", Value: panel, Kind: unit.Permeability, Origin: figure.Computed},
			{Key: "design:drink.carbonation", Symbol: "V_CO2", Label: "Drink and headspace: CO2 held, as gas at 0 °C and 1 atm", Value: (moles + gas) * unit.MolarVolumeSTP, Kind: unit.Volume, Origin: figure.Computed},
			{Key: "pack.pressure.store", Symbol: "p_CO2", Label: "CO2 partial pressure in store", Value: co2, Kind: unit.PressureAbs, Origin: figure.Computed},
		}
		origin := figure.Origin{
			Method: "Exponential loss of a pack in equilibrium with itself: steady permeation through wall zones and closure", Equation: "x = 1 - exp(-(K_wall + K_closure) t p_CO2 / V_CO2)",
			Sources: []string{"BiosystemsPackaging", "KorosPaul1978"}, Inputs: inputs, Warnings: warnings, Theory: "permeation",
		}
		c.figure("shelf.loss.end", loss, origin)
		share := func(key, symbol string, k float64) {
			c.figure(key, loss*k/(wall+through), figure.Origin{
				Method: "Share of the conductance", Equation: "x_part = x " + symbol + " / (K_wall + K_closure)", Sources: origin.Sources, Warnings: warnings, Theory: "permeation",
				Inputs: append([]figure.Input{c.input("x", "shelf.loss.end")}, inputs[3:5]...),
			})
		}
		share("shelf.loss.wall", "K_wall", wall)
		share("shelf.loss.closure", "K_closure", through)
		lossPlot(c, wall+through, through, capacity)
		limit := lossLimit(d)
		if limit <= 0 || limit >= 1 {
			c.problem("shelf.life", "no limit on shelf.loss.end is set, so no time to it")
			return nil, nil
		}
		life, err := permeation.TimeToLoss(wall+through, capacity, limit)
		if err != nil {
			c.problem("shelf.life", "%v", err)
			return nil, nil
		}
		c.figure("shelf.life", life, figure.Origin{
			Method: "Time at which the exponential loss reaches its limit", Equation: "t = -ln(1 - x_limit) V_CO2 / ((K_wall + K_closure) p_CO2)", Sources: origin.Sources, Warnings: warnings, Theory: "permeation",
			Inputs: append([]figure.Input{{Key: "design:limits", Symbol: "x_limit", Label: "Limits: shelf.loss.end", Value: limit, Kind: unit.Fraction, Origin: figure.Given}}, inputs[3:]...),
		})
		return nil, nil
	},
}

// materials returns the stretched and the unstretched wall with the barrier
// factor of the design on both.
func materials(factor float64) (oriented, amorphous permeation.Material, err error) {
	if oriented, err = permeation.Named("wall"); err != nil {
		return
	}
	if amorphous, err = permeation.Named("amorphous"); err != nil {
		return
	}
	if oriented, err = oriented.Scaled(factor); err != nil {
		return
	}
	amorphous, err = amorphous.Scaled(factor)
	return
}

// wallConductance returns the CO2 that the wall passes at t under p of CO2
// [Pa], per pascal: stretched and barely stretched zones side by side.
func wallConductance(w *Wall, oriented, amorphous permeation.Material, t unit.Temperature, p float64) (float64, error) {
	po, err := oriented.CO2.Permeability(t, p)
	if err != nil {
		return 0, err
	}
	pa, err := amorphous.CO2.Permeability(t, p)
	if err != nil {
		return 0, err
	}
	return permeation.Conductance([]permeation.Zone{
		{Name: "stretched", Area: w.Oriented * zoneThickness, Thickness: zoneThickness, Permeability: po},
		{Name: "barely stretched", Area: w.Amorphous * zoneThickness, Thickness: zoneThickness, Permeability: pa},
	})
}

// zoneThickness stands for the wall in a zone whose area over thickness is
// known as a whole [m].
const zoneThickness = 1e-3

// lossLimit returns the tightest maximum on the carbonation loss; 0 when there
// is none.
func lossLimit(d *design.Design) float64 {
	limits, _ := Limits(d)
	out := 0.0
	for _, l := range limits {
		if l.Figure == "shelf.loss.end" && l.Side == quality.Max && (out == 0 || l.Value < out) {
			out = l.Value
		}
	}
	return out
}

// lossPlot draws the first-order loss over the shelf life and half as long
// again.
func lossPlot(c *pass, conductance, closure, capacity float64) {
	if !c.work.drawn {
		return
	}
	end := 1.5 * c.d.Brief.ShelfLife
	t := span(0, end, 41)
	all, cap := make([]float64, len(t)), make([]float64, len(t))
	for i := range t {
		x, err := permeation.LossExponential(conductance, capacity, t[i])
		if err != nil {
			return
		}
		all[i], cap[i] = x, x*closure/conductance
	}
	c.plot(Plot{
		Key: "shelf.loss", Title: "Carbonation loss, first order", X: Axis{Label: "time", Kind: unit.Time, Unit: "weeks"}, Y: Axis{Label: "loss", Kind: unit.Fraction, Unit: "%"},
		Series: []Series{{Name: "loss", X: t, Y: all}, {Name: "through the closure", X: t, Y: cap, Dashed: true}},
		Marks:  []Mark{{At: c.d.Brief.ShelfLife, Label: "best before"}},
	})
}
