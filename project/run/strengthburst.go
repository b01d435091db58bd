package run

import (
	"fmt"
	"math"

	"costrel/figure"
	"costrel/physics/shell"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

func (t *strengthTests) burst() {
	const key, expands = "burst.pressure", "burst.expansion"
	r, err := shell.Burst(shell.BurstInput{Bottle: t.b, Soft: t.labSoft, Steps: burstSteps})
	if err != nil {
		t.lacking("burst: "+err.Error(), key, expands)
		return
	}
	where := fmt.Sprintf("fails by %s at z = %s, radius %s", r.Why, unit.Quote(unit.Length, r.Place, 3), unit.Quote(unit.Length, r.Radius, 3))
	equation := "p at dp/dV = 0"
	if r.Why == "strength" && r.Strength > 0 {
		equation = "p = k σ_u t / r"
	}
	t.show(result{
		key: key, value: r.Pressure, method: "Shell of revolution pumped by volume, large displacement, Hill plasticity with hardening, strength of the stretched wall", equation: equation,
		inputs: []figure.Input{
			computed("bottle.profile", "k", "What the form, its growth and its neighbours leave of the plain cylinder", r.Pressure*r.Radius/(math.Max(r.Strength, 1)*r.Wall), unit.Ratio),
			computed("handling.strength_factor", "σ_u", "Hoop strength of the wall there, over the unloaded section", r.Strength, unit.Stress),
			computed("blow.wall_factor", "t", "Wall there", r.Wall, unit.Length), computed("bottle.profile", "r", "Mid radius there", r.Radius, unit.Length),
			computed("bottle.profile", "ΔV", "Gain of the inner volume of the bottle as modelled, at failure", r.Gain*r.Room, unit.Volume), computed("bottle.profile", "V_0", "Inner volume of the bottle as modelled, unloaded", r.Room, unit.Volume), t.given("T", "handling.lab_temperature"),
		},
		follows: influence{strength: 1, wall: 1}, mesh: r.Mesh, warnings: append([]string{where, meshNote(r.Mesh, key)}, r.Warnings...),
	})
	t.expansion(r, where)
	if t.work.drawn {
		var p, g []float64
		for _, q := range r.Course {
			p, g = append(p, q.Pressure), append(g, q.Gain)
		}
		t.plot(Plot{Key: "strength.burst", Title: "Burst", X: Axis{Label: "gain of volume", Kind: unit.Fraction, Unit: "%"}, Y: Axis{Label: "pressure", Kind: unit.PressureGauge}, Series: []Series{{Name: "pumped with water", X: g, Y: p}}, Note: where})
	}
}

// Ends of the plastic strain to the ultimate strength, from memory of tensile tests
// on walls of bottles.
const hardeningLow, hardeningHigh = 0.05, 0.40

// hardeningLaw is what is known of that strain.
func hardeningLaw(d *design.Design) factorRange {
	x := d.Handling.Hardening
	low, high := math.Min(x, hardeningLow), math.Max(x, hardeningHigh)
	return factorRange{
		path: "handling.hardening_strain", label: "Strain to the ultimate strength", basis: fmt.Sprintf("%.0f .. %.0f %%, from memory", 100*low, 100*high), low: low / x, high: high / x,
	}.left(d.Handling.HardeningSD)
}

// expansion shows the gain of volume at burst with its band: it hangs on the strain
// at which the wall reaches its strength and on little else.
func (t *strengthTests) expansion(r shell.BurstResult, where string) {
	warnings := append([]string{where, meshNote(r.Mesh, "burst.pressure")}, r.Warnings...)
	law := hardeningLaw(t.d)
	note := quality.EstimatePrefix + ": the strain to the ultimate strength is from memory until it is fitted to the volume expansion of own bursts"
	if law.fitted {
		note = "the strain to the ultimate strength is fitted to the volume expansion of bursts of the laboratory; the band is what the fit leaves, for the mean of such bottles"
	}
	f := t.show(result{
		key: "burst.expansion", value: r.Gain, method: "Shell of revolution pumped by volume until it bursts, Hill plasticity with linear hardening up to the ultimate strength", equation: "g = ΔV / V_0",
		inputs: []figure.Input{
			computed("bottle.profile", "ΔV", "Gain of the inner volume of the bottle as modelled, at failure", r.Gain*r.Room, unit.Volume),
			computed("bottle.profile", "V_0", "Inner volume of the bottle as modelled, unloaded", r.Room, unit.Volume),
			t.given("x", "handling.hardening_strain"), t.given("T", "handling.lab_temperature"),
		},
		warnings: append(warnings, note),
	})
	gain := func(strain float64) (float64, bool) {
		b := t.b
		b.Hard, b.Quick, b.Sizing.Factor = hardeningOf(strain), true, 3*sizing
		q, err := shell.Burst(shell.BurstInput{Bottle: b, Soft: t.labSoft, Steps: burstSteps})
		return q.Gain, err == nil
	}
	x := t.d.Handling.Hardening
	mid, ok := gain(x)
	low, ok1 := gain(x * law.low)
	high, ok2 := gain(x * law.high)
	if ok && ok1 && ok2 {
		widen(f, figure.Effect{Path: law.path, Label: law.label, Low: math.Min(0, low-mid), High: math.Max(0, high-mid), Basis: law.basis})
	}
}
