package run

import (
	"fmt"
	"math"
	"slices"

	"costrel/figure"
	"costrel/physics/base"
	"costrel/physics/shell"
	"costrel/quality"
	"costrel/unit"
)

// valleys returns the share of the circle that the valleys of a petaloid base
// take at its standing radius; 10 degrees each where no width is drawn.
func (t *strengthTests) valleys() float64 {
	b := t.shape.Bottle.Spec().Base
	each := 10.0 / 360
	if b.Width > 0 && b.StandingRadius > 0 {
		each = b.Width / (2 * math.Pi * b.StandingRadius)
	}
	return math.Min(1, float64(t.d.Bottle.Base.Feet)*each)
}

// Least shares of sag and of the clearance without pressure by which the mesh is
// taken to move the clearance: of what is left between them a share says nothing. By
// TestMeshOfSmallClearance.
const meshOfSag, meshOfStart = 0.04, 0.01

// clearance is how high the gate stands after the thermal stability test.
func (t *strengthTests) clearance(in shell.GrowInput, r shell.GrowResult, c *creepTests) {
	const key, lean = "base.clearance", "perpendicularity.growth"
	kind := t.d.Bottle.Base.Type
	if kind == "hemisphere" {
		t.lacking("does not apply: a hemisphere stands in a base cup", key, lean)
		return
	}
	push := shell.PushUpInput{GrowInput: in}
	petaloid := kind == "petaloid"
	if petaloid {
		push.Feet, push.Share = t.d.Bottle.Base.Feet, t.valleys()
	}
	sag, err := push.Sag(r)
	if err != nil {
		t.lacking(err.Error(), key, lean)
		return
	}
	estimate, start := append([]string{}, sag.Warnings...), sag.Start
	if petaloid {
		start = t.d.Bottle.Base.PushUp
		estimate = append(estimate, quality.EstimatePrefix+": the gate sags between a round dome and bare straps that carry the whole base; only measured clearances narrow that, f_foot = (c_0 - c) / s")
		if fittedLaws(t.d) {
			estimate = append(estimate, "the fit to tests has no factor of the feet: a measured clearance may lie anywhere in the band")
		}
	}
	body := t.flows(r)
	estimate = append(estimate, body...)
	of := func(g shell.Growth) float64 {
		if petaloid {
			return -sag.Factor * g.Sag
		}
		return g.Clearance
	}
	mesh := r.MeshOf(of)
	off := math.Max(mesh.Error, math.Max(meshOfSag*math.Abs(sag.Loss), meshOfStart*start))
	f := c.show(result{
		key: key, value: sag.End, mesh: mesh, meshOff: off, meshBasis: fmt.Sprintf("%.0f %% of the sag and %.0f %% of the clearance without pressure", 100*meshOfSag, 100*meshOfStart),
		equation: "c = c_0 - f_foot s", warnings: append(estimate, meshNoteOf(mesh, key, off)),
		inputs: []figure.Input{
			computed("bottle.base.push_up", "c_0", "Base: clearance without pressure", start, unit.Length),
			assumed("bottle.base.feet", "f_foot", "Base: sag over that of the round base", sag.Factor, unit.Ratio, "CommonPractice"),
			computed("bottle.base.height", "s", "Base: sag of the round base", sag.Sag, unit.Length),
		},
	}, of)
	if petaloid {
		widen(f, figure.Effect{Path: "bottle.base.feet", Label: "Feet between dome and straps", Low: -(sag.High - sag.Factor) * sag.Sag, High: (sag.Factor - sag.Low) * sag.Sag, Basis: fmt.Sprintf("factor %.1f .. %.1f", sag.Low, sag.High)})
	}
	mesh.Fine = math.Abs(sag.Loss)
	t.lean(sag, petaloid, body, mesh)
}

// bodyFlow is the plastic strain of the panel from which sag against the ring no
// longer tells of the base: chosen for this project, about what it grows in all
// by elasticity and creep.
const bodyFlow = 0.02

// flows notes that the body yields: it then grows under the ring, which follows
// it, so that sag against the ring tells nothing of the base.
func (t *strengthTests) flows(r shell.GrowResult) []string {
	use := 0.0
	for _, s := range r.Stresses {
		if s.Z >= t.shape.Panel[0] && s.Z <= t.shape.Panel[1] {
			use = math.Max(use, s.Plastic)
		}
	}
	if use <= bodyFlow {
		return nil
	}
	return []string{fmt.Sprintf("%s: the body yields in the test, by a plastic strain of %.1f %%: ring and heel move with it, so that sag against the ring tells nothing of the base from there on, even where it hardly changes with more growth; look at growth.diameter first", quality.EstimatePrefix, 100*use)}
}

// footSpread is by how much the wall differs from foot to foot: common practice.
const footSpread = 0.08

// lean estimates how much further the pack leans when its feet sag unevenly.
func (t *strengthTests) lean(sag shell.PushUpResult, petaloid bool, notes []string, mesh shell.Estimate) {
	const key = "perpendicularity.growth"
	if !petaloid {
		t.problem(key, "does not apply: the base has no feet")
		return
	}
	stand := 2 * t.shape.Bottle.Spec().Base.StandingRadius
	if stand <= 0 {
		stand = t.d.Bottle.Base.Standing
	}
	high, low := sag.High/sag.Factor, sag.Low/sag.Factor
	v := t.d.Bottle.Height * 2 * footSpread * math.Abs(sag.Loss) / stand
	f := t.show(result{
		key: key, value: v, mesh: mesh, method: "Feet of uneven wall sag unevenly and tilt the pack on its standing circle", equation: "x = 2 H e s / D_s",
		inputs: []figure.Input{
			t.given("H", "bottle.height"), assumed("blow.wall_factor", "e", "Base: wall of a foot off the mean", footSpread, unit.Fraction, "CommonPractice"),
			computed("bottle.base.push_up", "s", "Base: sag in the thermal stability test", math.Abs(sag.Loss), unit.Length),
			computed("bottle.base.standing_diameter", "D_s", "Base: standing diameter", stand, unit.Length),
		},
		follows: influence{stiffness: -1, wall: -1}, warnings: append([]string{quality.EstimatePrefix + ": what the pack leans as blown comes on top"}, notes...),
	})
	widen(f, figure.Effect{Path: "bottle.base.feet", Label: "Feet between dome and straps, evenness of the wall", Low: v * (0.5*low - 1), High: v * (2*high - 1), Basis: "half to twice the spread of the wall, times the range of the sag"})
}

// base is roll-out and the ranking of stress cracks.
func (t *strengthTests) base() {
	t.rollOut()
	t.cracks()
}

// rollOut follows a push-up by arc length until it rolls out.
func (t *strengthTests) rollOut() {
	const key = "base.rollout"
	b := t.d.Bottle.Base
	if b.Type == "petaloid" || b.Type == "hemisphere" || b.PushUp <= 0 {
		t.problem(key, "does not apply: the base has no push-up that could roll out")
		return
	}
	in := shell.RollOutInput{Bottle: t.b, Soft: t.hotSoft}
	r, err := shell.RollOut(in)
	if err != nil {
		t.problem(key, "roll-out: %v", err)
		return
	}
	if t.work.drawn {
		var p, c []float64
		for _, q := range r.Path {
			p, c = append(p, q.Pressure), append(c, q.Clearance)
		}
		t.plot(Plot{Key: "strength.rollout", Title: "Roll-out of the base, by arc length", X: Axis{Label: "clearance of the gate", Kind: unit.Length, Unit: "mm"}, Y: Axis{Label: "pressure", Kind: unit.PressureGauge}, Series: []Series{{Name: "hot lane", X: c, Y: p}}})
	}
	most := unit.Quote(unit.PressureGauge, r.Path[len(r.Path)-1].Pressure, 3)
	q := result{
		key: key, value: r.Snap, equation: "p at dp/ds = 0", mesh: r.Mesh, warnings: append(slices.Clone(r.Warnings), meshNote(r.Mesh, key)),
		method: "Shell of revolution, large displacement and yield, followed by arc length through the limit of pressure or until the gate is down at the ring, at the temperature of the hot lane",
		inputs: []figure.Input{t.given("h", "bottle.base.push_up")}, follows: influence{stiffness: 1, wall: 2},
	}
	clear := r.Clear
	switch {
	case r.Down:
		q.value, clear, q.equation = r.Touch, 0, "p at c = 0"
		how := "the base does not snap up to " + most
		if r.Snaps {
			how = "the base snaps at " + unit.Quote(unit.PressureGauge, r.Snap, 3)
		}
		q.warnings = append([]string{"the gate comes down to the ring at this pressure and the pack rocks; " + how + ". At once: creep brings it down earlier, see base.clearance"}, q.warnings...)
	case !r.Snaps:
		t.holdsOut(q, r.Path[len(r.Path)-1])
		return
	}
	q.inputs = append(q.inputs, clearanceAt(clear))
	t.show(q)
}

// holdsOut shows that a base neither rolls out nor comes down up to the end of its
// path, the last point of which is given. A limit beyond that has no answer.
func (t *strengthTests) holdsOut(q result, last shell.RollOutPoint) {
	const held = "the base neither rolls out nor comes down to its ring up to "
	if l, open := t.beyond(q.key, last.Pressure); open {
		t.problem(q.key, held+"%s, where the search ends, and the limit is %s", unit.Quote(unit.PressureGauge, last.Pressure, 3), unit.Quote(unit.PressureGauge, l.Value, 3))
		return
	}
	q.value, q.equation, q.mesh, q.warnings = last.Pressure, "p >= p_1", shell.Estimate{}, []string{"at or above this pressure, where the search ends: " + held + "there"}
	q.inputs = append(q.inputs, computed("handling.modulus_factor", "p_1", "Last pressure of the path", last.Pressure, unit.PressureGauge), clearanceAt(last.Clearance))
	f := t.show(q)
	for i := range f.Effects { // how much more it bears is not known
		f.Effects[i].High = 0
	}
	f.Hi = f.Value
}

func clearanceAt(c float64) figure.Input {
	return computed("bottle.base.push_up", "c", "Base: clearance at that pressure", c, unit.Length)
}

// gateStress is the largest stress of the hardly stretched wall round the gate
// under a pressure, with the strap factor of feet.
type gateStress struct {
	strap, top float64 // [Pa] without the factor
	z, r       float64 // where
	disc       float64 // radius to which the wall is hardly stretched
	snap       float64 // pressure at which the base rolled out on the way; 0 for none
	gone       string  // why the bottle does not come through; empty where it does
}

// round works out the stress round the gate.
func (t *strengthTests) round(pressure float64) (gateStress, error) {
	q := gateStress{strap: 1}
	if t.d.Bottle.Base.Type == "petaloid" {
		q.strap = base.StrapFactor().Value
	}
	in := shell.GrowInput{Bottle: t.b, Stages: []shell.Stage{{Pressure: pressure, Soft: t.labSoft}}}
	in.Quick, in.Creep = true, nil
	r, err := shell.Grow(in)
	if err != nil {
		return q, err
	}
	q.snap, q.gone = r.Snap, gone(r)
	for _, p := range r.Stresses {
		if p.Z > t.wall.Parts[0] {
			break
		}
		if hoop, axial := t.wall.stretchAt(t.shape.Bottle.CutS(p.Z)); p.R > 2e-3 && hoop*axial > unoriented {
			break // from here on the wall is oriented
		}
		q.disc = p.R
		if s := math.Max(math.Max(p.AlongIn, p.AlongOut), math.Max(p.RoundIn, p.RoundOut)); s > q.top {
			q.top, q.z, q.r = s, p.Z, p.R
		}
	}
	return q, nil
}

// gateProbe is the pressure on the gate of a pack without gas, and of a base that
// its own pressure rolls out [Pa]: small, so that a push-up keeps its form as in a
// blow of some milliseconds.
const gateProbe = 5e3

// gateGain leaves the stress round the gate per pressure for the drop: at the own
// pressure of a carbonated pack, under which it falls.
func (t *strengthTests) gateGain() {
	at := []float64{gateProbe}
	if c := t.d.Drink.Carbonation; t.pressures != nil && c != nil && *c > 0 {
		if own, err := t.pressures.at(t.d.Handling.Lab); err == nil && own > gateProbe {
			at = []float64{float64(own), gateProbe}
		}
	}
	for _, p := range at {
		if q, err := t.round(p); err == nil && q.snap == 0 && q.gone == "" {
			t.gate = q.strap * q.top / p
			return
		}
	}
}

// gateMesh returns how far the mesh moves the largest stress round the gate: all
// that elements twice as long move it, for it is the largest of elements.
func (t *strengthTests) gateMesh(bath, top float64) shell.Estimate {
	x := *t
	x.b.Sizing.Factor *= 2
	q, err := x.round(bath)
	if err != nil {
		return shell.Estimate{Note: err.Error()}
	}
	return shell.Estimate{Fine: top, Coarse: q.top, Error: math.Abs(top - q.top)}
}

// cracks ranks the base by stress cracking in the caustic bath.
func (t *strengthTests) cracks() {
	const key = "base.crack.index"
	if t.unfilled != "" {
		t.problem(key, "%s", t.unfilled)
		return
	}
	bath := float64(t.d.Handling.Bath)
	c := t.d.Drink.Carbonation
	tried := t.pressures != nil && c != nil && *c > 0
	t.gateGain()
	var q gateStress
	var err error
	if tried {
		if q, err = t.round(bath); err == nil {
			t.burstsBelow(bath, &q)
		}
	}
	switch {
	case t.pressures == nil:
		t.problem(key, "%s", t.noPressure())
		return
	case !tried:
		t.problem(key, "does not apply: the stress-crack bath, at %s, is a test of carbonated packs", unit.Quote(unit.PressureGauge, bath, 3))
		return
	case err != nil:
		t.problem(key, "stress-crack bath: %v", err)
		return
	case q.gone != "":
		t.problem(key, "stress-crack bath, at %s: %s; see burst.pressure", unit.Quote(unit.PressureGauge, bath, 3), q.gone)
		return
	case q.snap > 0:
		t.problem(key, "the base rolls out at %s, below the %s of the stress-crack bath: a base that hangs down is none to be ranked; see base.rollout", unit.Quote(unit.PressureGauge, q.snap, 3), unit.Quote(unit.PressureGauge, bath, 3))
		return
	}
	strap, top, z, radius, disc := q.strap, q.top, q.z, q.r, q.disc
	i, err := base.CrackIndexOf(strap * top)
	if err != nil {
		t.problem(key, "%v", err)
		return
	}
	limit := base.CrackThreshold()
	mesh := t.gateMesh(bath, top)
	where, notes := "Base: largest stress, at z = "+unit.Quote(unit.Length, z, 3)+", radius "+unit.Quote(unit.Length, radius, 3), t.gateDisc(disc)
	if top == 0 {
		where = "Base: largest stress: none of the hardly stretched wall round the gate is pulled"
		notes = []string{"the bath pushes the wall round the gate together, all over and on both faces: nothing is pulled there that could crack, and the index says no more than that; look at the wall beside it and at base.rollout"}
	}
	f := t.show(result{
		key: key, value: i.Value, mesh: mesh, method: "Largest stress of the hardly stretched wall round the gate in the bath, over the stress below which such polyester does not craze", equation: "I = K σ / σ_th",
		inputs: []figure.Input{
			assumed("bottle.base.feet", "K", "Base: stress of the straps over that of the dome", strap, unit.Ratio, "CommonPractice"),
			computed("bottle.base.type", "σ", where, top, unit.Stress),
			{Key: "card:crack.threshold", Symbol: "σ_th", Label: limit.Label, Value: limit.Value, Kind: unit.Stress, Origin: figure.Practice, Source: limit.Source},
			t.given("p", "handling.bath_pressure"),
		},
		follows: influence{wall: -1}, warnings: append(append([]string{quality.EstimatePrefix + ": a ranking only, no life: " + string(i.Rank)}, notes...), t.habits(disc)...),
	})
	widen(f, figure.Effect{Path: "bottle.base.type", Label: "Threshold", Low: i.Low - i.Value, High: i.High - i.Value, Basis: "from memory"})
}

// burstsBelow notes that the bottle bursts below a pressure.
func (t *strengthTests) burstsBelow(pressure float64, q *gateStress) {
	i := slices.IndexFunc(t.figures, func(f figure.Figure) bool { return f.Key == "burst.pressure" })
	if i >= 0 && t.figures[i].Value < pressure {
		q.gone = "the bottle bursts at " + unit.Quote(unit.PressureGauge, t.figures[i].Value, 3)
	}
}

// unoriented is the planar stretch below which the wall counts as hardly
// stretched: chosen for this project, about the natural draw.
const unoriented = 4
