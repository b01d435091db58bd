package run

import (
	"fmt"

	"costrel/figure"
	"costrel/physics/bottle"
	"costrel/project/design"
)

// Shape is the bottle as drawn.
type Shape struct {
	Bottle  *bottle.Bottle
	Inside  *bottle.Inside // with the nominal wall
	Brimful float64        // m³, nominal wall
	Level   bottle.Level   // of the drink at 20 °C
	Panel   [2]float64     // heights of the label panel [m]
	parted  []float64      // where base, panel and shoulder part when the design names no planes [m]
	assumed string         // that it names none
}

var bottleStage = stage{
	name: "bottle",
	reads: func(d *design.Design) any {
		uncut := d.Bottle
		uncut.Planes, uncut.Parts = nil, nil // where the bottle is cut to be weighed shapes nothing
		return []any{uncut, d.Finish.Bore, d.Finish.Height, d.Brief.Nominal}
	},
	keys: []string{"bottle.height", "bottle.diameter", "bottle.volume.brimful", "bottle.volume.fill", "bottle.fill.height", "bottle.headspace", "bottle.area"},
	run: func(c *pass) (any, error) {
		d := c.d
		spec := d.Shape()
		spec.Planes = nil
		b, err := bottle.New(spec)
		if err != nil {
			return nil, err
		}
		inside, err := b.Nominal()
		if err != nil {
			return nil, err
		}
		s := &Shape{Bottle: b, Inside: inside, Brimful: inside.Brimful(), Panel: [2]float64{d.Bottle.PanelFrom, d.Bottle.PanelTo}}
		s.parted, s.assumed = b.CutPlanes()
		warnings := append(b.Warnings(), unshaped(d)...)
		profile := []figure.Input{c.given("t", "bottle.wall"), c.given("d_bore", "finish.bore"), c.given("h_bore", "finish.height")}
		geometric := func(method, equation string, inputs []figure.Input, warn []string) figure.Origin {
			return figure.Origin{Method: method, Equation: equation, Sources: []string{"Bronshtein2015"}, Inputs: inputs, Warnings: warn, Theory: "bottle"}
		}
		c.figure("bottle.height", b.Height(), geometric("Profile height and finish", "H = z_ledge + h_bore", []figure.Input{c.given("h_bore", "finish.height"), {Key: "design:bottle.profile", Symbol: "z_ledge", Label: "Bottle: ledge of the profile", Value: b.LedgeZ(), Kind: "length", Origin: figure.Computed}}, nil))
		c.figure("bottle.diameter", b.MaxDiameter(), geometric("Largest radius of the profile", "D = 2 r", []figure.Input{{Key: "design:bottle.profile", Symbol: "r", Label: "Bottle: largest radius of the profile", Value: b.MaxDiameter() / 2, Kind: "length", Origin: figure.Computed}}, nil))
		c.figure("bottle.volume.brimful", s.Brimful, geometric("Outer profile set off inward by the nominal wall, base included, and the bore of the finish", "V = ∫ π r_inner² dz + π d_bore² h_bore / 4", profile, warnings))
		c.figure("bottle.area", b.OuterArea(), geometric("Surface of revolution of the profile, base included", "A = ∫ 2 π r ds", []figure.Input{{Key: "design:bottle.profile", Symbol: "s", Label: "Bottle: arc length of the profile", Value: b.ArcLength(), Kind: "length", Origin: figure.Computed}}, warnings))
		c.figure("bottle.volume.fill", d.Brief.Nominal, figure.Origin{Kind: figure.Computed, Method: "The nominal volume is filled", Equation: "V_fill = V_nominal", Sources: []string{"CommonPractice"}, Inputs: []figure.Input{c.given("V_nominal", "brief.nominal")}, Theory: "bottle"})
		if reason := overfull(d, s.Brimful); reason != "" {
			c.problem("bottle.headspace", "%s", reason)
			c.problem("bottle.fill.height", "%s", reason)
			return s, nil
		}
		c.figure("bottle.headspace", s.Brimful-d.Brief.Nominal, geometric("Brimful capacity less fill volume", "V_head = V - V_fill", []figure.Input{c.input("V", "bottle.volume.brimful"), c.input("V_fill", "bottle.volume.fill")}, nil))
		level, err := inside.LevelOf(d.Brief.Nominal)
		if err != nil {
			c.problem("bottle.fill.height", "%v", err)
			return s, nil
		}
		s.Level = level
		c.figure("bottle.fill.height", level.BelowBrim, geometric("Height at which the inner space holds the fill volume", "V(h) = V_fill", []figure.Input{c.input("V_fill", "bottle.volume.fill"), c.input("V", "bottle.volume.brimful")}, warnings))
		return s, nil
	},
}

// overfull says that the fill volume does not fit; empty where it does.
func overfull(d *design.Design, brimful float64) string {
	if d.Brief.Nominal < brimful {
		return ""
	}
	return fmt.Sprintf("the fill volume of ‹%.1f mL› does not fit the brimful capacity of ‹%.1f mL›; make the bottle larger or fill less", d.Brief.Nominal*1e6, brimful*1e6)
}

// unshaped returns a warning when the push-up does not shape the outline that
// volume, area and fill height are taken from.
func unshaped(d *design.Design) []string {
	up := d.Bottle.Base.PushUp
	if up == 0 {
		return nil
	}
	switch d.Bottle.Base.Type {
	case "petaloid":
		return []string{fmt.Sprintf("base: the push-up of ‹%.1f mm› is the clearance of the gate between the feet: it serves base.clearance and the strength of the base and does not move the averaged outline, which a disc closes", up*1e3)}
	case "hemisphere":
		return []string{fmt.Sprintf("base: a hemisphere has no push-up: the ‹%.1f mm› are not used", up*1e3)}
	}
	return nil
}
