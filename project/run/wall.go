package run

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"costrel/figure"
	"costrel/num/curve"
	"costrel/physics/blow"
	"costrel/physics/bottle"
	"costrel/physics/drawdown"
	"costrel/physics/preform"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// Wall is the plastic along the bottle.
type Wall struct {
	Along       curve.Wall                          // thickness along the arc from the gate
	Inside      *bottle.Inside                      // the space inside it; nil when there is none
	Parts       []float64                           // heights at which base, panel and shoulder part [m]
	PanelMean   float64                             // of the panel between them [m]
	PanelRadius float64                             // outer, m
	Draw        *drawdown.Result                    // the preview
	Blown       *Blown                              // nil while the wall is the preview
	refused     string                              // why the blown wall of a full run is not taken; empty where it is
	said        string                              // of the blown wall, on every figure that rests on it
	origin      func(equation string) figure.Origin // of a figure of this wall
	Growth      float64                             // of the volume with gauge pressure [1/Pa]
	// Along the stations from the gate: arc, outer area from the gate, wall and
	// planar stretch, of the averaged base.
	S, Area, T, Planar []float64
	// Real is the surface of the real base over the averaged one, at the
	// stations; 1 elsewhere. The real wall is thinner by it.
	Real []float64
}

// RealAt returns the mean wall round the real shape [m] at an arc from the
// gate: feet have more surface than their round average and a thinner wall.
func (w *Wall) RealAt(s float64) float64 {
	t, _ := w.Along.At(s)
	i := sort.SearchFloat64s(w.S, s)
	switch {
	case i == 0:
		return t / w.Real[0]
	case i == len(w.S):
		return t / w.Real[i-1]
	}
	x := (s - w.S[i-1]) / (w.S[i] - w.S[i-1])
	return t / (w.Real[i-1] + x*(w.Real[i]-w.Real[i-1]))
}

// blownNote goes with every figure that rests on the blown wall.
func blownNote(d *design.Design) string {
	by, basis := computedPanel(d)
	return fmt.Sprintf("the wall is computed by the blow, not measured: ± %.2g %% of the panel is in the band (%s)", 100*by, basis)
}

// wallNote is the same while the wall is the preview.
const wallNote = quality.EstimatePrefix + ": the wall is a draw-down preview (mass balance to the section weights asked for), not a blown wall"

// Names of the two walls in plots.
const (
	drawnName = "draw-down preview"
	blownName = "blown"
)

// lines says which line of the plot of the wall is what.
func (w *Wall) lines() string {
	if w.Blown == nil {
		return wallNote
	}
	return "“" + blownName + "” is the wall of the full run, computed by the blow and not measured, on which the board rests; “" + drawnName + "” is the estimate that stood in for it before (mass balance to the section weights asked for)"
}

// drawnStretch says what the stretch of the preview is worth.
func (w *Wall) drawnStretch() string {
	if w.Blown == nil {
		return wallNote
	}
	return "an estimate from before the blow: the stretch of the draw-down preview (mass balance to the section weights asked for); that of the blown wall has a plot of its own, “" + blownStretch + "”"
}

// silentStations is the number of stations along the wall in the runs for bands and
// for fits of the wall.
const silentStations = 120

var wallStage = stage{
	name:  "wall",
	needs: []string{"bottle", "preform"},
	extra: []string{"blow"},
	reads: func(d *design.Design) any {
		return []any{d.Blow.WallFactor, d.Blow.Residual, d.Blow.WeightLeft, FitMoved(d), d.Blow.Free, d.Resin.DensityPreform, partsRead(d), d.Resin.DensityWall, d.Bottle.PanelDiameter, d.Finish.Mass, d.Shelf.Modulus, d.Shelf.Poisson, d.Shelf.ShapeShare}
	},
	keys: []string{
		"preform.ratio.hoop.inner", "preform.ratio.hoop.mid", "preform.ratio.hoop.outer", "preform.ratio.axial", "preform.ratio.axial.overall", "preform.ratio.planar",
		"bottle.volume.blown", "bottle.mass", "wall.min", "wall.panel.mean",
	},
	run: func(c *pass) (any, error) {
		d := c.d
		shape, pre := from[*Shape](c, "bottle"), from[*Preform](c, "preform")
		targets, note := scaledTargets(d, pre.Mass)
		if note != "" {
			c.problem("wall", "%s", note)
		}
		in := drawdown.Input{Preform: pre.Body, Bottle: shape.Bottle, Density: d.Resin.DensityWall, Targets: targets, Planes: partsOf(d)}
		if in.Quick = !c.work.drawn; in.Quick && !c.work.even {
			in.Stations = silentStations
		}
		r, err := drawdown.Solve(in)
		if err != nil && note != "" {
			return nil, fmt.Errorf("%w (the weights are those after scaling: %s)", err, note)
		}
		if err != nil {
			return nil, err
		}
		w := &Wall{Parts: shape.parts(d), PanelRadius: d.Bottle.PanelDiameter / 2, Draw: r, S: r.Stations.S, Area: r.Stations.Area, T: r.Wall, Planar: r.Planar, Real: r.Stations.AreaRatio}
		warnings, method, source := append([]string{wallNote}, r.Warnings...), "Draw-down preview: "+r.Method, []string{"Brandau201307"}
		if c.work.full {
			if b, why := blowOf(c); b == nil {
				w.refused = why
				c.problem("wall", "the wall shown is the draw-down preview, because %s", why)
				warnings = append(warnings, quality.EstimatePrefix+": the preview stands in for a blow that failed: "+why)
			} else if t, planar, err := blownWall(d, shape, pre.Mass, w.S, b); err != nil {
				w.refused = err.Error()
				c.problem("wall", "the wall shown is the draw-down preview, because %v", err)
				warnings = append(warnings, quality.EstimatePrefix+": the preview stands in for a blow that failed: "+err.Error())
			} else {
				w.T, w.Planar, w.Blown, w.said = t, planar, b, blownNote(d)
				warnings = append([]string{w.said}, blowWarnings(b.Result)...)
				if note := fitNote(d); note != "" {
					warnings = append(warnings, note)
				}
				method, source = blowMethod, blowOrigin(c, "", b.Result).Sources
				note = ""
			}
		} else if err := panelFactor(d, shape, w.S, w.T); err != nil {
			return nil, err
		}
		w.Along = curve.Wall{S: w.S, T: w.T}
		sections, err := shape.Bottle.Sections(w.Along, d.Resin.DensityWall, d.Finish.Mass, w.Parts)
		if err != nil {
			return nil, err
		}
		if len(sections) == 3 {
			w.PanelMean = sections[1].MeanWall
		}
		if w.Growth, err = bottle.GrowthRate(w.PanelRadius, w.PanelMean, d.Shelf.Modulus, d.Shelf.Poisson, d.Shelf.ShapeShare); err != nil {
			return nil, err
		}
		if note != "" {
			warnings = append(warnings, note)
		}
		inputs := []figure.Input{c.input("m", "preform.mass"), c.given("ρ", "resin.density_wall"), c.given("m_finish", "finish.mass")}
		theory := "drawdown"
		if w.Blown != nil {
			inputs, theory = append(inputs, blowInputs(c)[1:]...), "blow"
		} else if targets != nil {
			for i, name := range []string{"base", "panel", "shoulder"} {
				in := c.given("w_"+name, "preform.section_targets."+name)
				if math.Abs(targets[i]-in.Value) > 1e-9 {
					in.Value, in.Origin, in.Label = targets[i], figure.Computed, in.Label+", scaled to the preform"
				}
				inputs = append(inputs, in)
			}
		}
		// Every figure gets inputs and warnings of its own.
		draw := func(equation string) figure.Origin {
			return figure.Origin{Method: method, Equation: equation, Sources: source, Inputs: slices.Clone(inputs), Warnings: slices.Clone(warnings), Theory: theory}
		}
		w.origin = draw
		place, thin := 0, math.Inf(1)
		for i, t := range w.T {
			if t < thin {
				place, thin = i, t
			}
		}
		// thickness is a wall as plastic over area, both at mid wall.
		thickness := func(symbols, method string, of ...figure.Input) figure.Origin {
			o := draw(symbols)
			o.Method += method
			o.Inputs = append(of, inputs...)
			return o
		}
		const strip = 1e-4 // m², of wall at the thinnest place
		c.figure("wall.min", thin, thickness("t = m_1 / (ρ A_1)", "; thinnest at z = "+unit.Quote(unit.Length, r.Stations.Z[place], 4),
			computed("bottle.profile", "m_1", "Wall: plastic of one square centimetre at the thinnest place", thin*d.Resin.DensityWall*strip, unit.Mass),
			computed("bottle.profile", "A_1", "Wall: the square centimetre, at mid wall", strip, unit.Area)))
		if len(sections) == 3 {
			panel := sections[1]
			c.figure("wall.panel.mean", w.PanelMean, thickness("t = m_panel / (ρ A_panel)", "",
				computed("bottle.profile", "m_panel", "Panel: plastic between base and shoulder", panel.Mass, unit.Mass),
				computed("bottle.profile", "A_panel", "Panel: area at mid wall", panel.Area*(1-panel.MeanWall/(2*w.PanelRadius)), unit.Area)))
		} else {
			c.figure("wall.panel.mean", w.PanelMean, draw("t = m_panel / (ρ A_panel)"))
		}
		c.figure("bottle.mass", pre.Mass, figure.Origin{
			Method: "Blowing keeps the mass of the preform", Equation: "m_bottle = m", Sources: []string{"CommonPractice"}, Theory: "drawdown", Inputs: []figure.Input{c.input("m", "preform.mass")},
		})
		if inside, err := shape.Bottle.Inside(w.Along); err != nil {
			c.problem("bottle.volume.blown", "%v", err)
		} else {
			w.Inside = inside
			c.figure("bottle.volume.blown", inside.Brimful(), draw("V = V_outer - m_wall / ρ + V_bore"))
		}
		stretch(c, pre.Body, shape, w, inputs, warnings)
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

// wallSeries is the preview and, once there, the blown wall.
func wallSeries(w *Wall) []Series {
	out := []Series{{Name: drawnName, X: w.Draw.Stations.S, Y: w.Draw.Wall, Dashed: true}}
	if w.Blown != nil {
		out = append(out, Series{Name: blownName, X: w.S, Y: w.T})
	}
	return out
}

// note returns what must be said of a figure that rests on this wall.
func (w *Wall) note() string {
	if w.Blown != nil {
		return w.said
	}
	return wallNote
}

// blowOf returns the blow of a full run, or why there is none.
func blowOf(c *pass) (*Blown, string) {
	e := c.done["blow"]
	switch {
	case e == nil:
		return nil, "the blow was not run"
	case e.err != nil:
		return nil, e.err.Error()
	}
	b := e.out.(*Blown)
	if c.d.Blow.Free {
		return nil, "blow.free asks for a blow without a mould"
	}
	if why := unformed(b.Result); why != "" {
		return nil, why
	}
	return b, ""
}

// unformedRod is the force above which a stretch rod would have bent [N]. Chosen
// for this project.
const unformedRod = 5e3

// unformed says why a blow in a mould that ended made no bottle; empty when it
// did.
func unformed(r *blow.Result) string {
	for _, f := range r.Flags {
		if f.Kind == blow.FlagFold {
			return "the wall folds (" + f.Text + ")"
		}
	}
	for _, f := range r.Flags {
		if f.Kind == blow.FlagNotFilled {
			return "the blow does not fill the mould (" + f.Text + "); raise pressure, air flow or preform temperature, or open the high stage at another time"
		}
	}
	if r.PeakRod > unformedRod {
		return fmt.Sprintf("the rod would push with ‹%.0f N›, above ‹%.0f N›; the preform is too short, too cold or too thick for this bottle", r.PeakRod, unformedRod)
	}
	return ""
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
		return nil, "the section targets sum to less than the finish; the rule of thumb is used instead of them"
	}
	k := (mass - d.Finish.Mass) / body
	if off := s.Base + s.Panel + s.Shoulder - mass; math.Abs(off) > 0.3e-3 {
		note = fmt.Sprintf("the section targets sum to %.2f g, the preform weighs %.2f g; they were scaled to it", (s.Base+s.Panel+s.Shoulder)*1e3, mass*1e3)
	}
	return []float64{s.Base * k, s.Panel * k, (s.Shoulder-d.Finish.Mass)*k + d.Finish.Mass}, note
}

// wallPlots draws wall and stretch along the bottle.
func wallPlots(c *pass, shape *Shape, w *Wall, planes []float64) {
	if !c.work.drawn {
		return
	}
	r := w.Draw
	marks := []Mark{}
	for i, z := range planes {
		marks = append(marks, Mark{At: shape.Bottle.CutS(z), Label: []string{"base / panel", "panel / shoulder"}[min(i, 1)]})
	}
	arc := Axis{Label: "arc from the gate", Kind: unit.Length, Unit: "mm"}
	c.plot(Plot{
		Key: "wall.arc", Title: "Wall thickness", X: arc, Y: Axis{Label: "wall", Kind: unit.Wall}, Marks: marks, Note: w.lines(),
		Series: wallSeries(w),
	})
	c.plot(Plot{
		Key: "stretch.arc", Title: "Stretch by the draw-down preview", X: arc, Y: Axis{Label: "stretch ratio", Kind: unit.Ratio}, Marks: marks, Note: w.drawnStretch(),
		Series: []Series{{Name: "hoop, inside", X: r.Stations.S, Y: r.HoopInner}, {Name: "hoop, mid wall", X: r.Stations.S, Y: r.HoopMid}, {Name: "axial", X: r.Stations.S, Y: r.Axial}},
	})
}
