package run

import (
	"cmp"
	"fmt"
	"math"
	"slices"

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
	warnings := append([]string{where, meshNote(r.Widens, "burst.expansion")}, r.Warnings...)
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
		mesh: r.Widens, warnings: append(warnings, note),
	})
	least, most, whole := t.expansions(point{t.d.Handling.Hardening, r.Gain, r.Why == "strength"}, law)
	if !whole {
		f.Origin.Warnings = append(f.Origin.Warnings, fmt.Sprintf("%s: the band is not complete, because the bottle has no burst over the whole range of: %s", quality.EstimatePrefix, law.label))
	}
	widen(f, figure.Effect{Path: law.path, Label: law.label, Low: least - r.Gain, High: most - r.Gain, Basis: law.basis})
}

// point is the gain of volume at burst by the strain to the ultimate strength.
type point struct {
	strain, gain float64
	strength     bool // it fails by strength
}

// expansionAt returns the gain of volume at burst for a strain, on the mesh of the
// figure or on a coarse one.
func (t *strengthTests) expansionAt(strain float64, coarse bool) (point, error) {
	b := t.b
	if b.Hard, b.Quick = hardeningOf(strain), true; coarse {
		b.Sizing.Factor = 3 * sizing
	}
	q, err := shell.Burst(shell.BurstInput{Bottle: b, Soft: t.labSoft, Steps: burstSteps})
	return point{strain, q.Gain, q.Why == "strength"}, err
}

// expansions returns the least and the largest gain of volume at burst over the
// range of the strain to the ultimate strength, and whether all of that bursts. While
// the wall fails by strength the gain rises with the strain, and its ends tell all. A
// limit of pressure comes the earlier the more the wall flows, so that the gain rises
// and falls: its extremes are then looked for between the ends, on a coarse mesh.
func (t *strengthTests) expansions(here point, law factorRange) (least, most float64, whole bool) {
	least, most, whole = here.gain, here.gain, true
	even := here.strength
	count := func(strain float64) {
		q, err := t.expansionAt(strain, false)
		if err != nil {
			whole = false
			return
		}
		least, most, even = math.Min(least, q.gain), math.Max(most, q.gain), even && q.strength
	}
	from, to := here.strain*law.low, here.strain*law.high
	count(from)
	count(to)
	if even {
		return least, most, whole
	}
	low, high, all := t.expansionExtremes(from, to)
	for _, strain := range []float64{low, high} {
		if strain != from && strain != to {
			count(strain)
		}
	}
	return least, most, whole && all
}

// expansionExtremes returns the strains of the least and the largest gain of volume
// at burst on a coarse mesh: over strains that grow by at most a half, and once more
// on both sides of either.
func (t *strengthTests) expansionExtremes(from, to float64) (least, most float64, whole bool) {
	var all []point
	whole = true
	add := func(strain float64) {
		q, err := t.expansionAt(strain, true)
		if whole = whole && err == nil; err == nil {
			all = append(all, q)
		}
	}
	ends := func() (int, int) {
		slices.SortFunc(all, func(a, b point) int { return cmp.Compare(a.strain, b.strain) })
		lo, hi := 0, 0
		for i, q := range all {
			if q.gain < all[lo].gain {
				lo = i
			}
			if q.gain > all[hi].gain {
				hi = i
			}
		}
		return lo, hi
	}
	n := math.Ceil(math.Log(to/from) / math.Log(1.5))
	for k := 0.0; k < n; k++ {
		add(from * math.Pow(to/from, k/n))
	}
	if add(to); len(all) == 0 {
		return from, to, false
	}
	lo, hi := ends()
	var more []float64
	for _, i := range []int{lo, hi} {
		for _, j := range []int{i - 1, i + 1} {
			if j >= 0 && j < len(all) {
				more = append(more, math.Sqrt(all[i].strain*all[j].strain))
			}
		}
	}
	for _, strain := range more {
		add(strain)
	}
	lo, hi = ends()
	return all[lo].strain, all[hi].strain, whole
}
