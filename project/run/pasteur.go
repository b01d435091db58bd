package run

import (
	"costrel/figure"
	"costrel/physics/hotfill"
	"costrel/project/design"
	"costrel/unit"
)

// coolingSpan is how many time constants of the cooling are counted; what
// comes later is as good as at the end temperature.
const coolingSpan = 10

// pasteur shows the heat treatment of the closed pack: that of a recorder in it
// where the design has its readings, else hold at fill temperature and cooling
// towards the end temperature, the course of the drink.
func (c *pass) pasteur() {
	d, heat := c.d, heatingOf(c.d)
	course := []figure.Input{
		c.given("T_fill", "drink.fill_temperature"), c.given("t_hold", "hotfill.hold_time"), c.given("T_end", "hotfill.end_temperature"), c.given("τ", "hotfill.cooling_time"),
	}
	how, about := "hold in closed form, cooling by Gauss panels", "the course is that of the drink: the cold bottle, the closure and the headspace stay below it, and a recorder in the pack tells by how much"
	equation := "PU = t_hold 10^((T_fill - T_ref) / z) + ∫ 10^((T - T_ref) / z) dt, T = T_end + (T_fill - T_end) exp(-t / τ), to t = 10 τ"
	if rows := d.HotFill.Record; len(rows) > 0 {
		course, equation = recordInputs(rows), "PU = ∫ 10^((T - T_ref) / z) dt along the record"
		how, about = "the record joined by straight lines, each in closed form", "the record is that of hotfill.record; whether its sensor stood in the coldest place of the pack is not known here"
	}
	warn := []string{about, "what is enough depends on germs, acidity and preservative of the drink; whoever answers for the process sets the target"}
	show := func(key string, l hotfill.Lethality, method string, inputs []figure.Input, sources, warnings []string) {
		v, err := heat.lethal(l)
		if err != nil {
			c.problem(key, "%s", err)
			return
		}
		c.figure(key, v, figure.Origin{Method: method, Equation: equation, Sources: sources, Theory: "hotfill", Inputs: inputs, Warnings: warnings})
	}
	show("pasteur.units", hotfill.Lethality{Reference: d.HotFill.Reference, Z: d.HotFill.Z}, "Time weighted by ten to the distance from the reference over z: "+how,
		append(append([]figure.Input{}, course...), c.given("T_ref", "hotfill.pasteur_reference"), c.given("z", "hotfill.pasteur_z")), []string{"DelVecchio1951", "CommonPractice"}, warn)
	acid, err := hotfill.Scale("F93")
	if err != nil {
		c.problem("pasteur.f93", "%s", err)
		return
	}
	show("pasteur.f93", acid, "The same time with T_ref = "+unit.Quote(unit.TemperaturePoint, float64(acid.Reference), 4)+" and z = "+unit.Quote(unit.TemperatureChange, float64(acid.Z), 3)+", a scale from memory",
		append(append([]figure.Input{}, course...),
			assumed("hotfill.pasteur_reference", "T_ref", "Scale of acidified foods: reference temperature", float64(acid.Reference), unit.TemperaturePoint, acid.Source),
			assumed("hotfill.pasteur_z", "z", "Scale of acidified foods: kelvin to a tenfold effect", float64(acid.Z), unit.TemperatureChange, acid.Source)),
		[]string{acid.Source}, append([]string{"no statement on a low-acid drink: its spores survive hot filling"}, warn...))
}

// recordInputs are the ends of a record and its hottest reading.
func recordInputs(rows []design.RecordRow) []figure.Input {
	top := rows[0]
	for _, r := range rows {
		if r.Temperature > top.Temperature {
			top = r
		}
	}
	return []figure.Input{
		computed("hotfill.record", "n", "Record: readings", float64(len(rows)), unit.Count),
		computed("hotfill.record", "t_record", "Record: from first to last reading", rows[len(rows)-1].Time-rows[0].Time, unit.Time),
		computed("hotfill.record", "T_top", "Record: hottest reading", float64(top.Temperature), unit.TemperaturePoint),
	}
}

// pasteurScales are the scales of the figures of the heat treatment.
func (c *pass) pasteurScales() map[string]hotfill.Lethality {
	out := map[string]hotfill.Lethality{"pasteur.units": {Reference: c.d.HotFill.Reference, Z: c.d.HotFill.Z}}
	if acid, err := hotfill.Scale("F93"); err == nil {
		out["pasteur.f93"] = acid
	}
	return out
}

// heating is what the closed pack goes through: the record of it where there is
// one, else hold at fill temperature and cooling [s].
type heating struct {
	fill, end     unit.Temperature
	hold, cooling float64
	record        []hotfill.Reading
}

func heatingOf(d *design.Design) heating {
	out := heating{fill: d.Drink.FillTemperature, end: d.HotFill.End, hold: d.HotFill.Hold, cooling: d.HotFill.Cooling}
	for _, r := range d.HotFill.Record {
		out.record = append(out.record, hotfill.Reading(r))
	}
	return out
}

// lethal returns the equivalent time on a scale [s].
func (h heating) lethal(l hotfill.Lethality) (float64, error) {
	if h.record != nil {
		return l.Profile(h.record)
	}
	cooling, err := l.Cooling(h.fill, h.end, h.cooling, coolingSpan*h.cooling)
	if err != nil || h.hold <= 0 {
		return cooling, err
	}
	hold, err := l.Hold(h.fill, h.hold)
	return hold + cooling, err
}
