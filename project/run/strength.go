package run

import (
	"fmt"

	"costrel/physics/hotfill"
	"costrel/physics/shell"
	"costrel/project/design"
	"costrel/unit"
)

var strengthStage = stage{
	name: "strength", full: true, needs: []string{"bottle", "preform", "wall"}, soft: []string{"pressure", "blow"},
	reads: func(d *design.Design) any {
		own := []any{d.Handling, d.Bottle.Base, d.Drink, d.Brief, d.Climate.Hot, d.Climate.Lane, d.Climate.Named, d.Climate.SeasonStart, d.Closure.Mass, d.Resin.Grade, d.Blow.Body, d.Finish.Seal, d.Lab.Drops, d.Resin.IV, softBounds(d)}
		if hotFilled(d) { // its vacuum
			own = append(own, hotfillStage.reads(d))
		}
		return own
	},
	keys: []string{
		"growth.diameter", "growth.height", "fillpoint.drop", "base.clearance", "perpendicularity.growth", "burst.pressure", "burst.expansion", "topload.empty", "topload.sealed", "topload.filled",
		"vacuum.collapse", "panel.compliance", "stack.capacity", "drop.index", "drop.height.half", "stress.max", "softening.temperature", "base.rollout", "base.crack.index", "altitude.pressure", "altitude.growth",
		"material.glass.wall", "material.glass.mass", "material.hdpe.growth",
	},
	run: func(c *pass) (any, error) {
		t, err := newStrengthTests(c)
		if err != nil {
			t.withoutWall()
			return nil, err
		}
		tests := []func(){t.growth, t.burst, t.vacuum, t.topLoads, t.base, t.altitude, t.drop, t.drops, t.softening, t.otherMaterials}
		for i, test := range tests {
			if err := c.work.ctx.Err(); err != nil {
				return nil, err
			}
			c.report(float64(i) / float64(len(tests)))
			test()
		}
		c.report(1)
		return &Strength{Panel: t.panel, Buckling: t.buckling}, nil
	},
}

// Strength is what later stages and the page take from the virtual tests.
type Strength struct {
	Panel []hotfill.Point // volume given inward over vacuum, up to the collapse; nil where the test failed
	// Buckling is that of the empty vented bottle under top load; nil without.
	Buckling *Buckling
}

// Steps of the paths. Five times as many move burst by less than 0.1 %, four
// times as many the top load by less than 1 %: TestStrengthConverges. Those of
// the top load do not lengthen with the stroke, of which each is at most a part
// in pushLeast: a longer stroke goes through the same states and further, so that
// its largest load is no less.
const (
	growSteps        = 5
	burstSteps       = 12
	pushLeast        = 6
	pushStride       = 3.75e-3 / 32 // [m]
	pushStrideFilled = 6.35e-3 / 32
)

// strengthTests runs the virtual tests of one bottle.
type strengthTests struct {
	*pass
	b         shell.Bottle
	shape     *Shape
	wall      *Wall
	pressures *Pressures // nil without pressure
	rigid     bool       // no wall is known: nothing swells
	unfilled  string     // why the filled pack is not known; empty where it is
	warm      shell.Warmth
	warnings  []string
	buckling  *Buckling
	gate      float64 // largest stress of the hardly stretched wall round the gate per pressure; 0 for unknown

	sucked *sucked         // the vacuum test; nil before it is made
	panel  []hotfill.Point // of it

	labSoft, hotSoft              float64
	stabilitySoft, stabilityCreep float64
}

// newStrengthTests prepares the bottle and the factors of temperature. Without a
// blown wall, or one that stands as a shell, it returns tests that know no bottle,
// and an error.
func newStrengthTests(c *pass) (*strengthTests, error) {
	shape, w := from[*Shape](c, "bottle"), from[*Wall](c, "wall")
	heatset := c.d.Blow.Body.Celsius() > 90
	t := &strengthTests{pass: c, shape: shape, wall: w, warm: shell.DefaultWarmth(heatset)}
	t.filled()
	if w.Blown == nil {
		why := w.refused
		if why == "" { // a wall of a run that blows nothing
			_, why = blowOf(c)
		}
		return t, fmt.Errorf("the virtual tests need a blown bottle: %s", why)
	}
	b, warnings, err := shellBottle(c.d, shape, w)
	if err == nil {
		t.b, err = b.Meshed()
	}
	if err != nil {
		return t, err
	}
	t.warnings = append([]string{countedWall(c.d, w), lawsNote(c.d)}, warnings...)
	return t, t.warmth()
}

// withoutWall shows what needs no blown wall: what the laboratory dropped, glass
// in the same shape, and the pressure at altitude of a pack that does not swell.
func (t *strengthTests) withoutWall() {
	t.rigid = true
	t.drops()
	t.altitude()
	if t.pressures == nil {
		t.lacking(t.noPressure(), "material.glass.wall", "material.glass.mass")
		return
	}
	t.glass()
}

// filled finds out under what pressure the filled pack stands, or why that is not
// known.
func (t *strengthTests) filled() {
	c := t.pass
	t.unfilled = overfull(c.d, t.shape.Brimful)
	switch e := c.done["pressure"]; {
	case e == nil || e.skipped:
	case e.err == nil:
		t.pressures = e.out.(*Pressures)
	case t.unfilled == "":
		t.unfilled = "pressure: " + e.err.Error()
	}
}

// noPressure says why a test of a pack under pressure is left out.
func (t *strengthTests) noPressure() string {
	if t.unfilled != "" {
		return t.unfilled
	}
	return "does not apply: the pack holds no pressure"
}

// warmth works out the factors of temperature of the tests.
func (t *strengthTests) warmth() error {
	hot, _ := hottest(t.d)
	for _, q := range []struct {
		at    unit.Temperature
		soft  *float64
		creep *float64
	}{{t.d.Handling.Lab, &t.labSoft, nil}, {t.d.Handling.Stability, &t.stabilitySoft, &t.stabilityCreep}, {hot, &t.hotSoft, nil}} {
		soft, creep, warning, err := t.warm.Factors(q.at)
		if err != nil {
			return fmt.Errorf("strength: %w", err)
		}
		if warning != "" && q.at < unit.Celsius(15) {
			t.warnings = append(t.warnings, warning)
		}
		*q.soft = soft
		if q.creep != nil {
			*q.creep = creep
		}
	}
	return nil
}
