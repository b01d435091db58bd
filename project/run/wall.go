package run

import (
	"fmt"
	"math"

	"costrel/figure"
	"costrel/num/curve"
	"costrel/physics/bottle"
	"costrel/physics/drawdown"
	"costrel/physics/preform"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// Wall is the plastic along the bottle.
type Wall struct {
	Along       curve.Wall // thickness along the arc from the gate
	Zones       []Zone
	PanelMean   float64 // m
	PanelRadius float64 // outer, m
	Draw        *drawdown.Result
	Growth      float64 // of the volume with gauge pressure [1/Pa]
	// Along the stations from the gate: arc, outer area from the gate, wall and
	// planar stretch.
	S, Area, T, Planar []float64
}

// wallNote goes with every figure that rests on the draw-down.
const wallNote = quality.EstimatePrefix + ": the wall is a draw-down preview (mass balance to the section weights asked for), not a blown wall"

var wallStage = stage{
	name:  "wall",
	needs: []string{"bottle", "preform"},
	reads: func(d *design.Design) any {
		return []any{d.Preform.Targets, d.Resin.DensityWall, d.Bottle.PanelDiameter, d.Finish.Mass, d.Shelf.Modulus, d.Shelf.Poisson, d.Shelf.ShapeShare}
	},
	keys: []string{
		"preform.ratio.hoop.inner", "preform.ratio.hoop.mid", "preform.ratio.hoop.outer", "preform.ratio.axial", "preform.ratio.axial.overall", "preform.ratio.planar",
		"bottle.volume.blown", "bottle.mass", "wall.min", "wall.panel.mean", "section.shoulder.mass", "section.panel.mass", "section.base.mass",
	},
	run: func(c *pass) (any, error) {
		d := c.d
		shape, pre := from[*Shape](c, "bottle"), from[*Preform](c, "preform")
		targets, note := scaledTargets(d, pre.Mass)
		if note != "" {
			c.problem("wall", "%s", note)
		}
		r, err := drawdown.Solve(drawdown.Input{Preform: pre.Body, Bottle: shape.Bottle, Density: d.Resin.DensityWall, Targets: targets})
		if err != nil {
			return nil, err
		}
		w := &Wall{Along: r.Profile(), PanelMean: r.Panel, PanelRadius: d.Bottle.PanelDiameter / 2, Draw: r}
		w.S, w.Area, w.T, w.Planar = r.Stations.S, r.Stations.Area, r.Wall, r.Planar
		if w.Growth, err = bottle.GrowthRate(w.PanelRadius, w.PanelMean, d.Shelf.Modulus, d.Shelf.Poisson, d.Shelf.ShapeShare); err != nil {
			return nil, err
		}
		warnings := append([]string{wallNote}, r.Warnings...)
		if note != "" {
			warnings = append(warnings, note)
		}
		inputs := []figure.Input{c.input("m", "preform.mass"), c.given("ρ", "resin.density_wall"), c.given("m_finish", "finish.mass")}
		if targets != nil {
			inputs = append(inputs, c.given("m_shoulder", "preform.section_targets.shoulder"), c.given("m_panel", "preform.section_targets.panel"), c.given("m_base", "preform.section_targets.base"))
		}
		source := []string{"Brandau201307"}
		draw := func(equation string) figure.Origin {
			return figure.Origin{Method: "Draw-down preview: " + r.Method, Equation: equation, Sources: source, Inputs: inputs, Warnings: warnings, Theory: "drawdown"}
		}
		for _, s := range r.Sections {
			w.Zones = append(w.Zones, Zone{Name: s.Name, From: s.Z0, To: s.Z1, Grams: s.Mass * 1e3})
			c.figure("section."+s.Name+".mass", s.Mass, draw("m_section = ρ ∫ t dA between the planes"))
		}
		c.figure("wall.min", r.Min.Value, draw("t = (dm / ds) / (2 π r ρ), smallest at z = "+unit.Show(unit.Length, r.Min.Z, unit.EU)))
		c.figure("wall.panel.mean", r.Panel, draw("t = m_panel / (ρ A_panel)"))
		c.figure("bottle.mass", pre.Mass, figure.Origin{
			Method: "Blowing keeps the mass of the preform", Equation: "m_bottle = m", Sources: []string{"CommonPractice"}, Theory: "drawdown", Inputs: []figure.Input{c.input("m", "preform.mass")},
		})
		if inside, err := shape.Bottle.Inside(w.Along); err != nil {
			c.problem("bottle.volume.blown", "%v", err)
		} else {
			c.figure("bottle.volume.blown", inside.Brimful(), draw("V = V_outer - m_wall / ρ + V_bore"))
		}
		stretch(c, pre.Body, shape, w, inputs, warnings)
		wallPlots(c, shape, w)
		return w, nil
	},
}

// stretch adds the stretch ratios of the panel.
func stretch(c *pass, p *preform.Preform, shape *Shape, w *Wall, wall []figure.Input, warnings []string) {
	d := c.d
	s, err := p.Stretch(preform.Aim{Diameter: d.Bottle.PanelDiameter, Wall: w.PanelMean, Arc: shape.Bottle.ArcLength(), Density: d.Resin.DensityWall})
	if err != nil {
		c.problem("preform.ratio.planar", "%v", err)
		return
	}
	D, t := c.given("D", "bottle.panel_diameter"), c.input("t", "wall.panel.mean")
	di, wi := c.given("d_i", "preform.inner_diameter"), c.given("w", "preform.wall")
	add := func(key string, v float64, method, equation string, inputs ...figure.Input) {
		c.figure(key, v, figure.Origin{Method: method, Equation: equation, Sources: []string{"CommonPractice"}, Inputs: inputs, Theory: "preform"})
	}
	add("preform.ratio.hoop.inner", s.HoopInner, "Inner diameters of panel and preform", "λ = (D - 2 t) / d_i", D, t, di)
	add("preform.ratio.hoop.mid", s.HoopMid, "Mid-wall diameters of panel and preform", "λ = (D - t) / (d_i + w)", D, t, di, wi)
	add("preform.ratio.hoop.outer", s.HoopOuter, "Outer diameters of panel and preform", "λ = D / (d_i + 2 w)", D, di, wi)
	c.figure("preform.ratio.planar", s.Planar, figure.Origin{
		Method: "Walls of preform and panel, corrected for density", Equation: "λ = w ρ_p / (t ρ)", Sources: []string{"CommonPractice"}, Theory: "preform", Warnings: warnings,
		Inputs: []figure.Input{wi, c.given("ρ_p", "resin.density_preform"), t, c.given("ρ", "resin.density_wall")},
	})
	c.figure("preform.ratio.axial", s.AxialLocal, figure.Origin{
		Method: "Planar stretch over mid-wall hoop stretch, at the panel", Equation: "λ = λ_planar / λ_hoop", Sources: []string{"CommonPractice"}, Theory: "preform", Warnings: warnings,
		Inputs: []figure.Input{c.input("λ_planar", "preform.ratio.planar"), c.input("λ_hoop", "preform.ratio.hoop.mid")},
	})
	add("preform.ratio.axial.overall", s.AxialOverall, "Arc lengths from ledge to gate", "λ = L_bottle / L_preform",
		figure.Input{Key: "design:bottle.profile", Symbol: "L_bottle", Label: "Bottle: arc from gate to ledge", Value: shape.Bottle.ArcLength(), Kind: unit.Length, Origin: figure.Computed},
		figure.Input{Key: "design:preform.body_length", Symbol: "L_preform", Label: "Preform: arc from gate to ledge", Value: p.ArcLength(), Kind: unit.Length, Origin: figure.Computed})
}

// scaledTargets returns the section targets from the base up, scaled to the
// preform's mass below the finish, and a note when they did not fit.
func scaledTargets(d *design.Design, mass float64) (targets []float64, note string) {
	s := d.Preform.Targets
	if s == nil {
		return nil, ""
	}
	body := s.Base + s.Panel + s.Shoulder - d.Finish.Mass
	if body <= 0 {
		return nil, fmt.Sprintf("the section targets sum to less than the finish; the rule of thumb is used instead of them")
	}
	k := (mass - d.Finish.Mass) / body
	if off := s.Base + s.Panel + s.Shoulder - mass; math.Abs(off) > 0.3e-3 {
		note = fmt.Sprintf("the section targets sum to %.2f g, the preform weighs %.2f g; they were scaled to it", (s.Base+s.Panel+s.Shoulder)*1e3, mass*1e3)
	}
	return []float64{s.Base * k, s.Panel * k, (s.Shoulder-d.Finish.Mass)*k + d.Finish.Mass}, note
}

// wallPlots draws wall and stretch along the bottle.
func wallPlots(c *pass, shape *Shape, w *Wall) {
	if !c.work.drawn {
		return
	}
	r := w.Draw
	marks := []Mark{}
	for i, z := range shape.Planes {
		marks = append(marks, Mark{At: shape.Bottle.CutS(z), Label: []string{"base / panel", "panel / shoulder"}[min(i, 1)]})
	}
	arc := Axis{Label: "arc from the gate", Kind: unit.Length, Unit: "mm"}
	c.plot(Plot{
		Key: "wall.arc", Title: "Wall along the bottle", X: arc, Y: Axis{Label: "wall", Kind: unit.Length, Unit: "mm"}, Marks: marks, Note: wallNote,
		Series: []Series{{Name: "draw-down preview", X: r.Stations.S, Y: r.Wall, Dashed: true}},
	})
	c.plot(Plot{
		Key: "stretch.arc", Title: "Stretch along the bottle", X: arc, Y: Axis{Label: "stretch ratio", Kind: unit.Ratio}, Marks: marks, Note: wallNote,
		Series: []Series{{Name: "hoop, inside", X: r.Stations.S, Y: r.HoopInner}, {Name: "hoop, mid wall", X: r.Stations.S, Y: r.HoopMid}, {Name: "axial", X: r.Stations.S, Y: r.Axial}},
	})
}
