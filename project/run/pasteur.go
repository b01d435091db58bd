package run

import (
	"costrel/figure"
	"costrel/physics/hotfill"
	"costrel/unit"
)

// coolingSpan is how many time constants of the cooling are counted; what
// comes later is as good as at the end temperature.
const coolingSpan = 10

// pasteur shows the heat treatment of the closed pack: hold at fill temperature,
// then cooling towards the end temperature. It is the course of the drink; the
// coldest place of the pack is a matter for a recorder.
func (c *pass) pasteur() {
	d := c.d
	course := []figure.Input{
		c.given("T_fill", "drink.fill_temperature"), c.given("t_hold", "hotfill.hold_time"), c.given("T_end", "hotfill.end_temperature"), c.given("τ", "hotfill.cooling_time"),
	}
	warn := []string{
		"the course is that of the drink: the cold bottle, the closure and the headspace stay below it, and a recorder in the pack tells by how much",
		"what is enough depends on germs, acidity and preservative of the drink; whoever answers for the process sets the target",
	}
	const equation = "PU = t_hold 10^((T_fill - T_ref) / z) + ∫ 10^((T - T_ref) / z) dt, T = T_end + (T_fill - T_end) exp(-t / τ), to t = 10 τ"
	show := func(key string, l hotfill.Lethality, method string, inputs []figure.Input, sources, warnings []string) {
		v, err := c.lethal(l)
		if err != nil {
			c.problem(key, "%s", err)
			return
		}
		c.figure(key, v, figure.Origin{Method: method, Equation: equation, Sources: sources, Theory: "hotfill", Inputs: inputs, Warnings: warnings})
	}
	show("pasteur.units", hotfill.Lethality{Reference: d.HotFill.Reference, Z: d.HotFill.Z}, "Time weighted by ten to the distance from the reference over z: hold in closed form, cooling by Gauss panels",
		append(append([]figure.Input{}, course...), c.given("T_ref", "hotfill.pasteur_reference"), c.given("z", "hotfill.pasteur_z")), []string{"DelVecchio1951", "CommonPractice"}, warn)
	acid, err := hotfill.Scale("F93")
	if err != nil {
		c.problem("pasteur.f93", "%s", err)
		return
	}
	show("pasteur.f93", acid, "The same time with T_ref = "+unit.Show(unit.TemperaturePoint, float64(acid.Reference), unit.EU)+" and z = "+unit.Show(unit.TemperatureChange, float64(acid.Z), unit.EU)+", a scale from memory",
		append(append([]figure.Input{}, course...),
			assumed("hotfill.pasteur_reference", "T_ref", "Scale of acidified foods: reference temperature", float64(acid.Reference), unit.TemperaturePoint, acid.Source),
			assumed("hotfill.pasteur_z", "z", "Scale of acidified foods: kelvin to a tenfold effect", float64(acid.Z), unit.TemperatureChange, acid.Source)),
		[]string{acid.Source}, append([]string{"no statement on a low-acid drink: its spores survive hot filling"}, warn...))
}

// lethal returns the equivalent time of hold and cooling on a scale [s].
func (c *pass) lethal(l hotfill.Lethality) (float64, error) {
	h, fill := c.d.HotFill, c.d.Drink.FillTemperature
	cooling, err := l.Cooling(fill, h.End, h.Cooling, coolingSpan*h.Cooling)
	if err != nil || h.Hold <= 0 {
		return cooling, err
	}
	hold, err := l.Hold(fill, h.Hold)
	return hold + cooling, err
}
