package blow

import (
	"math"

	"costrel/unit"
)

// nominal is the preform of the oracle: 22 mm outside, 3 mm wall, 75 mm body.
func nominal() Preform { return Straight(16e-3, 3e-3, 75e-3, 2.25e-3) }

// oracle is what the cases have in common: as a simpler program of the same
// scheme does it, without heat flow, contact on the mid-line.
func oracle(T float64) Case {
	c := DefaultCase()
	c.Preform = nominal()
	c.Heat.Uniform = unit.Celsius(T)
	c.Numbers.Isothermal, c.Numbers.MidContact, c.Numbers.Rate = true, true, RateNetwork
	c.Numbers.FrameEvery = 0
	c.Numbers.Theta, c.Numbers.StrainMost = 1, 0
	c.Recipe.Ambient = 101300
	return c
}

// freeBlow is the free stretch-blow of the oracle. Its rod presses on the gate
// and the nodes beside it with a tip that is not stated; 2 mm stands for it.
func freeBlow(T float64) Case {
	c := oracle(T)
	c.Numbers.StepMost = 5e-4
	r := &c.Recipe
	r.Pre = Stage{Pressure: 9e5, Area: 8e-6, Discharge: 1}
	r.High = Stage{}
	r.DeadVolume = 30e-6
	r.Rod = Rod{Speed: 1, Stop: 200.4e-3, Radius: 2e-3}
	r.Duration = 0.2
	return c
}

// flowMatrix is the case of the oracle with a slow supply, 9 g/s choked.
func flowMatrix(T, area float64) Case {
	c := freeBlow(T)
	c.Numbers.Elements, c.Numbers.StepMost, c.Numbers.StepFirst = 40, 1e-3, 1e-3
	c.Recipe.Pre.Pressure, c.Recipe.Pre.Area, c.Recipe.DeadVolume = 8e5, area, 85e-6
	return c
}

// moulded is the mould case of the oracle.
func moulded(T float64) Case {
	c := oracle(T)
	c.Numbers.StepMost = 5e-4
	m := &Mould{Z: []float64{0, 0.005, 0.050}, R: []float64{0.0115, 0.0115, 0.0325}, Zones: []Zone{{T: unit.Celsius(10)}}}
	const n = 16
	for i := 0; i <= n; i++ {
		a := math.Pi / 2 * float64(i) / n
		m.Z, m.R = append(m.Z, 0.185+0.010*math.Sin(a)), append(m.R, 0.0225+0.010*math.Cos(a))
	}
	m.Z, m.R = append(m.Z, 0.195), append(m.R, 0)
	c.Mould = m
	r := &c.Recipe
	r.Pre = Stage{Pressure: 9e5, Area: 6e-6, Discharge: 1, Start: Start{Time: 0.020}}
	r.High = Stage{Pressure: 36e5, Area: 20e-6, Discharge: 1, Start: Start{Time: 0.160}}
	r.DeadVolume = 40e-6
	r.Rod = Rod{Speed: 1.2, Stop: 0.1945, Radius: 2e-3}
	r.Hold, r.Exhaust = 0.2, 0
	return c
}
