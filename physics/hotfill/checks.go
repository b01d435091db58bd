package hotfill

import (
	"fmt"
	"math"

	"costrel/cite"
	"costrel/physics/drink"
	"costrel/unit"
)

// solution is a sugar solution under the vapour pressure of pure water, as the
// reference values were computed; drink.Liquid lowers it by the activity of
// water, which moves the rigid case by about 2 mbar.
type solution float64 // mass fraction of sucrose

func (w solution) Density(t unit.Temperature) float64 { return drink.SucroseDensity(t, float64(w)) }
func (w solution) VapourPressure(t unit.Temperature) float64 {
	return float64(drink.VapourPressure(t))
}

// brix11 is 11 °Brix.
const brix11 = solution(0.11)

const (
	mL    = 1e-6
	kPa   = 1e3
	mbar  = 100
	perkP = mL / kPa // mL/kPa
)

var room = Store{Temperature: unit.Celsius(20)}

// juice is 500 mL of 11 °Brix in 520 mL brimful, filled at t, rigid.
func juice(t float64) Pack {
	return Pack{
		Liquid: brix11, Overflow: 520 * mL, Fill: 500 * mL,
		FillAt: unit.Celsius(t), Temperature: unit.Celsius(t),
	}
}

// tea is half a litre (at 20 °C) in 538 mL, filled at 85 °C under gas of 80 °C.
func tea(compliance float64) Pack {
	return Pack{
		Liquid: solution(0), Overflow: 538 * mL, Fill: 500 * mL, FillAt: unit.Celsius(20),
		Temperature: unit.Celsius(85), Gas: unit.Celsius(80), Shrinkage: 0.00935,
		Panel: Panel{Compliance: compliance * perkP},
	}
}

func cooled(p Pack, f func(State) float64) func() float64 {
	return func() float64 {
		s, err := Cool(p, room)
		if err != nil {
			return math.NaN()
		}
		return f(s)
	}
}

func vacuum(s State) float64   { return s.Vacuum / kPa }
func pressure(s State) float64 { return float64(s.Pressure) / 1e5 }

// Checks returns the table of published checks of the package.
func Checks() []cite.Check {
	var out []cite.Check
	row := func(id, what, u string, want, allowed float64, f func() float64) {
		out = append(out, cite.Check{
			ID: "hotfill." + id, Case: what, Source: "MoranShapiro2006", Unit: u, Published: want, Allowed: allowed,
			Mark: cite.Regression, Note: "the source holds the gas laws; the value is from a second program", Ours: f,
		})
	}
	row("rigid.85C", "500 mL of 11 °Brix at 85 °C in 520 mL, rigid, to 20 °C: pressure", "bar(a)", 0.2272, 0.001, cooled(juice(85), pressure))
	for _, r := range []struct{ t, p, v float64 }{{80, 0.291, 0.722}, {90, 0.161, 0.852}, {95, 0.093, 0.920}} {
		row(fmt.Sprintf("rigid.%gC", r.t), fmt.Sprintf("the same at %g °C: pressure", r.t), "bar(a)", r.p, 0.001, cooled(juice(r.t), pressure))
		row(fmt.Sprintf("rigid.%gC.vacuum", r.t), fmt.Sprintf("the same at %g °C: vacuum", r.t), "bar", r.v, 0.001, cooled(juice(r.t), func(s State) float64 { return s.Vacuum / 1e5 }))
	}
	for _, r := range []struct{ h, v float64 }{{5, 0.901}, {10, 0.847}, {20, 0.786}, {40, 0.731}, {60, 0.705}} {
		row(fmt.Sprintf("headspace.%gmL", r.h), fmt.Sprintf("500 mL of 11 °Brix at 85 °C under %g mL, rigid, to 20 °C: vacuum", r.h), "bar", r.v, 0.001, func() float64 {
			s, err := SweepHeadspace(juice(85), room, []float64{r.h * mL})
			if err != nil {
				return math.NaN()
			}
			return s[0].Vacuum / 1e5
		})
	}
	for _, r := range []struct{ v, need float64 }{{0.02, 27.65}, {0.05, 27.41}, {0.10, 26.99}, {0.20, 25.97}, {0.30, 24.67}} {
		row(fmt.Sprintf("need.%gmbar", 1000*r.v), fmt.Sprintf("85 °C, 500 in 520 mL: volume the wall gives at a vacuum of %g bar", r.v), "mL", r.need, 0.015,
			func() float64 { return cite.Or(WallNeed(juice(85), room, r.v*1e5)) / mL })
	}
	row("contraction.juice", "contraction of 500 mL of 11 °Brix from 85 to 20 °C", "mL", 14.98, 0.01, cooled(juice(85), func(s State) float64 { return s.Budget.Liquid / mL }))
	row("compliance.2.volume", "85 °C, 500 in 520 mL, 2 mL/kPa: given by the panels", "mL", 26.68, 0.01, func() float64 {
		p := juice(85)
		p.Panel.Compliance = 2 * perkP
		return cooled(p, func(s State) float64 { return s.Budget.Panels / mL })()
	})
	for _, r := range []struct{ k, rigid, shrunk float64 }{
		{0.1, .733, .680}, {0.25, .623, .548}, {0.5, .441, .367}, {1, .253, .207}, {2, .1334, .109}, {4, .068, .055},
	} {
		for i, want := range []float64{r.rigid, r.shrunk} {
			p := juice(85)
			p.Panel.Compliance, p.Shrinkage = r.k*perkP, 0.01*float64(i)
			row(fmt.Sprintf("compliance.%g.shrink%d", r.k, i), fmt.Sprintf("85 °C, 500 in 520 mL, %g mL/kPa, shrinkage %d %%: vacuum", r.k, i), "bar", want, 0.001,
				cooled(p, func(s State) float64 { return s.Vacuum / 1e5 }))
		}
	}
	out = append(out, teaChecks()...)
	out = append(out, settleChecks()...)
	out = append(out, doseChecks()...)
	return append(out, lethalChecks()...)
}

// teaChecks are a worked case of a lemon tea bottle. It was worked out with
// densities rounded to 968.5 and 998.2 kg/m³; the tolerances hold that.
func teaChecks() []cite.Check {
	var out []cite.Check
	row := func(id, what, u string, want, allowed float64, f func() float64) {
		out = append(out, cite.Check{
			ID: "hotfill.tea." + id, Case: "tea, 500 in 538 mL at 85 °C, gas at 80 °C, shrinkage 5.0 mL: " + what, Source: "CommonPractice",
			Unit: u, Published: want, Allowed: allowed, Mark: cite.Regression, Ours: f,
		})
	}
	row("rigid", "vacuum, rigid", "kPa", 68, 0.5, cooled(tea(0), vacuum))
	for _, r := range []struct{ c, want float64 }{{0.6, 30}, {0.8, 24}, {1.0, 20}} {
		row(fmt.Sprintf("vacuum.%g", r.c), fmt.Sprintf("vacuum at %g mL/kPa", r.c), "kPa", r.want, 0.5, cooled(tea(r.c), vacuum))
	}
	row("vacuum.1.13", "vacuum at 1.13 mL/kPa", "kPa", 18.1, 0.1, cooled(tea(1.13), vacuum))
	row("panels", "given by the panels at 1.13 mL/kPa", "mL", 20.4, 0.15, cooled(tea(1.13), func(s State) float64 { return s.Budget.Panels / mL }))
	row("liquid", "contraction of the liquid", "mL", 15.35, 0.1, cooled(tea(1.13), func(s State) float64 { return s.Budget.Liquid / mL }))
	row("gas", "cooling and condensation of the gas", "mL", 10.1, 0.1, cooled(tea(1.13), func(s State) float64 { return s.Budget.Gas / mL }))
	row("shrinkage", "shrinkage", "mL", 5.0, 0.05, cooled(tea(1.13), func(s State) float64 { return s.Budget.Shrinkage / mL }))
	row("demand", "liquid and gas together", "mL", 25.4, 0.15, cooled(tea(1.13), func(s State) float64 { return (s.Budget.Liquid + s.Budget.Gas) / mL }))
	for _, r := range []struct{ v0, want float64 }{{532, 24}, {545, 30}} {
		p := tea(0.7)
		p.Overflow = r.v0 * mL
		row(fmt.Sprintf("overflow.%g", r.v0), fmt.Sprintf("vacuum at 0.7 mL/kPa and %g mL brimful", r.v0), "kPa", r.want, 0.5, cooled(p, vacuum))
	}
	return out
}

// settleChecks are the half-litre juice of the shelf-life runs: 2 mL/kPa, 1 %
// shrinkage, 23 °C, 4.4 mg/L nitrogen and 1 mg/L oxygen dissolved at filling.
func settleChecks() []cite.Check {
	p := juice(85)
	p.Panel.Compliance, p.Shrinkage = 2*perkP, 0.01
	st := Store{Temperature: unit.Celsius(23)}
	settle := func(f func(State) float64) func() float64 {
		return func() float64 {
			s, err := Settle(p, st, Air{
				Water: 0.89, OxygenSolubility: drink.HenryOxygen(st.Temperature), NitrogenSolubility: drink.HenryNitrogen(st.Temperature),
				Oxygen: 1e-3, Nitrogen: 4.4e-3,
			})
			return cite.Or(f(s), err)
		}
	}
	closed := func(f func(State) float64) func() float64 {
		return func() float64 {
			s, err := Cool(p, st)
			return cite.Or(f(s), err)
		}
	}
	row := func(id, what, u string, want, allowed float64, f func() float64) cite.Check {
		return cite.Check{
			ID: "hotfill.juice." + id, Case: "juice, 500 in 520 mL at 85 °C, 2 mL/kPa, shrinkage 1 %, to 23 °C: " + what, Source: "IAPWSG704",
			Unit: u, Published: want, Allowed: allowed, Mark: cite.Regression,
			Note: "the source holds the solubilities; the value is from a second program", Ours: f,
		}
	}
	return []cite.Check{
		row("closed", "vacuum, nothing dissolves", "mbar", 106, 1, closed(func(s State) float64 { return s.Vacuum / mbar })),
		row("closed.headspace", "headspace, nothing dissolves", "mL", 8.2, 0.1, closed(func(s State) float64 { return s.Headspace / mL })),
		row("closed.panels", "panels, nothing dissolves", "mL", 21.2, 0.2, closed(func(s State) float64 { return s.Budget.Panels / mL })),
		row("settled", "vacuum, gas dissolved", "mbar", 133, 1.5, settle(func(s State) float64 { return s.Vacuum / mbar })),
		row("settled.panels", "panels, gas dissolved", "mL", 26.6, 0.3, settle(func(s State) float64 { return s.Budget.Panels / mL })),
	}
}

func doseChecks() []cite.Check {
	out := []cite.Check{{
		ID: "hotfill.dose.rigid", Case: "nitrogen that cancels the vacuum, 500 mL of 11 °Brix at 85 °C in 520 mL, rigid", Source: "MoranShapiro2006",
		Unit: "mg", Published: 31.6, Allowed: 0.1, Mark: cite.Regression, Ours: func() float64 { return cite.Or(Dose(juice(85), room, 0)) / mL },
	}}
	for _, r := range []struct{ bar, gas, dissolved float64 }{{0.3, 5.2, 2.9}, {0.5, 8.6, 4.9}, {1.0, 17.2, 9.7}} {
		dose := func(i int) func() float64 {
			return func() float64 {
				t := unit.Celsius(20)
				g, d, err := StillDose(15*mL, 500*mL*drink.WaterDensity(t), drink.HenryNitrogen(t), t, r.bar*1e5)
				return cite.Or([]float64{g, d}[i], err) / mL
			}
		}
		out = append(out,
			cite.Check{
				ID: fmt.Sprintf("hotfill.dose.gas.%gbar", r.bar), Case: fmt.Sprintf("still water, 500 mL under 15 mL, 20 °C: nitrogen in the headspace for %g bar", r.bar),
				Source: "MoranShapiro2006", Unit: "mg", Published: r.gas, Allowed: 0.06, Mark: cite.Regression, Ours: dose(0),
			},
			cite.Check{
				ID: fmt.Sprintf("hotfill.dose.dissolved.%gbar", r.bar), Case: fmt.Sprintf("the same: nitrogen that dissolves at %g bar", r.bar),
				Source: "IAPWSG704", Unit: "mg", Published: r.dissolved, Allowed: 0.06, Mark: cite.Regression, Ours: dose(1),
			})
	}
	return out
}

func lethalChecks() []cite.Check {
	hold := func(scale string, t, seconds float64) func() float64 {
		return func() float64 {
			l, err := Scale(scale)
			if err != nil {
				return math.NaN()
			}
			return cite.Or(l.Hold(unit.Celsius(t), seconds)) / 60
		}
	}
	row := func(id, what, source, u string, want, allowed float64, f func() float64) cite.Check {
		return cite.Check{
			ID: "hotfill.lethal." + id, Case: what, Source: source, Unit: u, Published: want, Allowed: allowed,
			Mark: cite.Regression, Note: "the rule is published, its arithmetic is ours", Ours: f,
		}
	}
	return []cite.Check{
		row("pu.60", "60 °C for 1 min", "DelVecchio1951", "PU", 1, 1e-9, hold("PU60", 60, 60)),
		row("pu.62", "62 °C for 10 min, 1.393^(T-60)", "DelVecchio1951", "PU", 19.40, 0.01, hold("PU60", 62, 600)),
		row("pu.62.z7", "62 °C for 10 min, z = 7 K", "DelVecchio1951", "PU", 19.31, 0.01, hold("PU60 z7", 62, 600)),
		row("pu.65", "65 °C for 10 min", "DelVecchio1951", "PU", 52.4, 0.1, hold("PU60", 65, 600)),
		row("pu.72", "72 °C for 30 s", "DelVecchio1951", "PU", 26.7, 0.1, hold("PU60", 72, 30)),
		row("pu.85", "85 °C for 30 s", "DelVecchio1951", "PU", 1985, 3, hold("PU60", 85, 30)),
		row("pu.85.z7", "85 °C for 30 s, z = 7 K", "DelVecchio1951", "PU", 1864, 3, hold("PU60 z7", 85, 30)),
		row("pu.88", "88 °C for 20 s", "DelVecchio1951", "PU", 3573, 5, hold("PU60", 88, 20)),
		row("p80.88", "88 °C for 20 s on 80 °C, z = 10 K", "CommonPractice", "min", 2.1, 0.05, hold("P80", 88, 20)),
		{
			ID: "hotfill.lethal.cooling", Case: "cooling from 85 towards 20 °C, time constant 20 min: added on 85 °C, z = 10 K", Source: "CommonPractice",
			Unit: "min", Published: 1.44, Allowed: 0.01, Mark: cite.Regression,
			Ours: func() float64 {
				l := Lethality{Reference: unit.Celsius(85), Z: 10}
				return cite.Or(l.Cooling(unit.Celsius(85), unit.Celsius(20), 1200, 10*1200)) / 60
			},
		},
	}
}
