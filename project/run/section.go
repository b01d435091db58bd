package run

import (
	"costrel/figure"
	"costrel/physics/bottle"
	"costrel/project/design"
	"costrel/unit"
)

// Where the wall parts and where the bottle is cut are two things. Base, panel
// and shoulder part where the design says what they weigh; there the draw-down
// is held, and panel factor, growth, stress and barrier take the panel. The cut
// planes only say where the bottle is cut to be weighed: the section stage
// alone reads them, so that a plane that is moved runs no solver again.

// partsOf returns the heights at which base, panel and shoulder part [m], as the
// design says it: those of the section targets, else bottle.parts, else the cut
// planes; nil when it names none.
func partsOf(d *design.Design) []float64 {
	switch t := d.Preform.Targets; {
	case t != nil && len(t.Planes) > 0:
		return t.Planes
	case len(d.Bottle.Parts) > 0:
		return d.Bottle.Parts
	}
	return d.Bottle.Planes
}

// parts is partsOf, or where the outline parts by itself.
func (s *Shape) parts(d *design.Design) []float64 {
	if p := partsOf(d); len(p) > 0 {
		return p
	}
	return s.parted
}

// cut returns the heights at which the bottle is cut to be weighed [m].
func (s *Shape) cut(d *design.Design) []float64 {
	if len(d.Bottle.Planes) > 0 {
		return d.Bottle.Planes
	}
	return s.parted
}

// partsRead is what a stage that parts the wall reads of the design: the weights
// of the targets and the planes, whichever row of the document holds them.
func partsRead(d *design.Design) any {
	if t := d.Preform.Targets; t != nil {
		return []any{[]float64{t.Base, t.Panel, t.Shoulder}, partsOf(d)}
	}
	return []any{nil, partsOf(d)}
}

// Sections are the weights between the cut planes, from the base up.
type Sections struct {
	Planes []float64 // m
	Zones  []Zone
}

var sectionStage = stage{
	name: "section", of: "wall",
	needs: []string{"bottle", "preform", "wall"},
	reads: func(d *design.Design) any {
		return []any{d.Bottle.Planes, d.Resin.DensityWall, d.Finish.Mass}
	},
	keys: []string{"section.shoulder.mass", "section.panel.mass", "section.base.mass"},
	run: func(c *pass) (any, error) {
		d, shape, w := c.d, from[*Shape](c, "bottle"), from[*Wall](c, "wall")
		if len(d.Bottle.Planes) == 0 {
			c.problem("section.panel.mass", "%s", shape.assumed)
		}
		out := &Sections{Planes: shape.cut(d)}
		sections, err := w.weigh(d, shape, out)
		if err != nil {
			return nil, err
		}
		for _, s := range sections {
			o := w.origin("m_section = ρ V_section")
			if s.Mass > s.Wall {
				o.Equation += " + m_finish"
			}
			o.Inputs = append([]figure.Input{
				computed("bottle.planes", "V_section", "Section: plastic of the wall, its thickness over its area", s.Wall/d.Resin.DensityWall, unit.Volume),
				computed("bottle.planes", "t_mean", "Section: mean wall", s.MeanWall, unit.Length),
				computed("bottle.planes", "A", "Section: outer surface, the base averaged round the axis", s.Area, unit.Area),
			}, o.Inputs...)
			c.figure("section."+s.Name+".mass", s.Mass, o)
		}
		wallPlots(c, shape, w, out.Planes)
		return out, nil
	},
}

// weigh cuts the bottle of a wall and enters the weights.
func (w *Wall) weigh(d *design.Design, shape *Shape, out *Sections) ([]bottle.Section, error) {
	sections, err := shape.Bottle.Sections(w.Along, d.Resin.DensityWall, d.Finish.Mass, out.Planes)
	for _, s := range sections {
		out.Zones = append(out.Zones, Zone{Name: s.Name, From: s.Z0, To: s.Z1, Grams: s.Mass * 1e3})
	}
	return sections, err
}
