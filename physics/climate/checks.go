package climate

import (
	"fmt"
	"math"

	"costrel/cite"
	"costrel/unit"
)

// daily is a year of 22 ± 10 °C, day by day.
func daily() (Course, error) {
	l := Constant("cycle", unit.Celsius(22), 0.5, 365*Day)
	l.Segments[0].Daily = Cycle{Temperature: 10, Peak: 15 * 3600}
	return l.Course()
}

// Checks returns the table of published checks of the package.
func Checks() []cite.Check {
	var out []cite.Check
	for _, r := range []struct{ h, kPa float64 }{
		{1000, 89.9}, {1500, 84.6}, {2240, 77.2}, {3000, 70.1}, {4267, 59.5}, {5791, 48.5},
	} {
		out = append(out, cite.Check{
			ID: fmt.Sprintf("climate.atmosphere.%gm", r.h), Case: fmt.Sprintf("standard atmosphere at %g m", r.h),
			Source: "USStandardAtmosphere1976", Unit: "kPa(a)", Published: r.kPa, Allowed: 0.05, Mark: cite.Regression,
			Note: "a second program of the same equation",
			Ours: func() float64 { p, err := Pressure(r.h); return cite.Or(float64(p), err) / 1e3 },
		})
	}
	for _, r := range []struct{ h, pa float64 }{{1000, 89874.6}, {5000, 54019.9}, {11000, 22632.06}} {
		out = append(out, cite.Check{
			ID: fmt.Sprintf("climate.atmosphere.table.%gm", r.h), Case: fmt.Sprintf("table of the standard at %g geopotential metres", r.h),
			Source: "USStandardAtmosphere1976", Unit: "Pa(a)", Published: r.pa, Allowed: 0.1, Mark: cite.Memory,
			Ours: func() float64 { p, err := Pressure(r.h); return cite.Or(float64(p), err) },
		})
	}
	out = append(out, cite.Check{
		ID: "climate.altitude.2240m", Case: "rigid pack closed at 2240 m and sold at sea level", Source: "USStandardAtmosphere1976",
		Unit: "kPa(g)", Published: -24, Allowed: 0.5, Mark: cite.Regression,
		Ours: func() float64 { p, err := AltitudeGauge(2240, 0); return cite.Or(float64(p), err) / 1e3 },
	})
	for _, r := range []struct{ e, want float64 }{{45e3, 23.35}, {33e3, 22.96}} {
		out = append(out, cite.Check{
			ID:     fmt.Sprintf("climate.kinetic.%gkJ", r.e/1e3),
			Case:   fmt.Sprintf("mean kinetic temperature of a daily cycle 22 ± 10 °C, %g kJ/mol", r.e/1e3),
			Source: "Haynes1971", Unit: "°C", Published: r.want, Allowed: 0.02, Mark: cite.Independent,
			Note: "the source gives the equation; the value is a numerical average in a second program",
			Ours: func() float64 {
				c, err := daily()
				if err != nil {
					return math.NaN()
				}
				t, err := c.MeanKinetic(r.e)
				return cite.Or(t.Celsius(), err)
			},
		})
	}
	return out
}
