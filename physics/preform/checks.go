package preform

import (
	"math"

	"costrel/cite"
)

// Preforms of three hand calculations: 1.75 L CSD, 0.5 L hot fill, and 1.5 L
// CSD before and after lightweighting. Made up for the examples.
var (
	limeSpec    = Example()
	teaSpec     = Spec{InnerDiameter: 0.0190, Wall: 0.0032, BodyLength: 0.0660, GateWall: 0.00245, FinishMass: 0.0053, Density: 1335}
	oldSpec     = Spec{InnerDiameter: 0.0186, Wall: 0.00315, BodyLength: 0.1001, GateWall: 0.0024, FinishMass: 0.00505, Density: 1335}
	newSpec     = Spec{InnerDiameter: 0.0186, Wall: 0.00305, BodyLength: 0.1009, GateWall: 0.00235, FinishMass: 0.00374, Density: 1335}
	limeAim     = Aim{Diameter: 0.0990, Wall: 0.281e-3, Arc: 0.3314, Density: 1360}
	teaAim      = Aim{Diameter: 0.0685, Wall: 0.36e-3, Arc: 0.25, Density: 1374}
	oldAim      = Aim{Diameter: 0.0870, Wall: 0.270e-3, Arc: 0.33, Density: 1360}
	newAim      = Aim{Diameter: 0.0870, Wall: 0.260e-3, Arc: 0.33, Density: 1360}
	taperedSpec = Spec{
		InnerDiameter: 0.020, Wall: 0.004, BodyLength: 0.08, GateWall: 0.003, Cap: CapTapered, Density: 1335,
		Transition: Transition{Length: 0.012, LedgeWall: 0.002, LedgeDiameter: 0.0217},
	}
)

// Checks returns the table of published checks of this package. A computation
// that fails gives NaN, which fails its row.
func Checks() []cite.Check {
	of := func(spec Spec, f func(*Preform) float64) func() float64 {
		return func() float64 {
			p, err := New(spec)
			if err != nil {
				return math.NaN()
			}
			return f(p)
		}
	}
	ratio := func(spec Spec, aim Aim, f func(Stretch) float64) func() float64 {
		return of(spec, func(p *Preform) float64 {
			s, err := p.Stretch(aim)
			if err != nil {
				return math.NaN()
			}
			return f(s)
		})
	}
	grams := func(p *Preform) float64 { return p.Mass() * 1e3 }
	hand := func(id, text, unit string, ours func() float64, want, allowed float64) cite.Check {
		return cite.Check{
			ID: id, Case: text, Source: "CommonPractice", Unit: unit, Ours: ours, Published: want, Allowed: allowed,
			Mark: cite.Regression, Note: "hand calculation",
		}
	}
	inner := func(s Stretch) float64 { return s.HoopInner }
	mid := func(s Stretch) float64 { return s.HoopMid }
	planar := func(s Stretch) float64 { return s.Planar }
	local := func(s Stretch) float64 { return s.AxialLocal }
	pi := math.Pi
	shell := func(ro, ri float64) float64 { return 2 * pi / 3 * (ro*ro*ro - ri*ri*ri) }
	frustum := func(a, b, h float64) float64 { return pi * h / 3 * (a*a + a*b + b*b) }
	return []cite.Check{
		{
			ID: "preform.solid.cap", Case: "hemispherical cap of 10.2 to 13.0 mm radius at 1335 kg/m³", Source: "Bronshtein2015", Unit: "g",
			Ours:      of(limeSpec, func(p *Preform) float64 { return p.CapMass() * 1e3 }),
			Published: 1335e3 * shell(0.0130, 0.0102), Allowed: 1e-12, Relative: true, Mark: cite.Independent, Note: "hollow sphere, 2π/3 (Ro³ - Ri³)",
		},
		{
			ID: "preform.solid.body", Case: "tube of 19.6 x 26.8 mm, 91.1 mm long", Source: "Bronshtein2015", Unit: "g",
			Ours:      of(limeSpec, func(p *Preform) float64 { return p.BodyMass() * 1e3 }),
			Published: 1335e3 * pi / 4 * (0.0268*0.0268 - 0.0196*0.0196) * 0.0911, Allowed: 1e-12, Relative: true, Mark: cite.Independent,
		},
		{
			ID: "preform.solid.transition", Case: "tapered transition: difference of two frustums", Source: "Bronshtein2015", Unit: "g",
			Ours:      of(taperedSpec, func(p *Preform) float64 { return p.TransitionMass() * 1e3 }),
			Published: 1335e3 * (frustum(0.014, 0.01285, 0.012) - frustum(0.010, 0.01085, 0.012)), Allowed: 1e-12, Relative: true, Mark: cite.Independent,
		},
		{
			ID: "preform.solid.taperedcap", Case: "cap with the wall growing with the angle, 3 to 4 mm on 12 mm", Source: "Bronshtein2015", Unit: "g",
			Ours: of(taperedSpec, func(p *Preform) float64 { return p.CapMass() * 1e3 }),
			// h = g + c a: ∫ sin = ∫ a sin = 1, ∫ a² sin = π-2, ∫ a³ sin = 3π²/4-6 over the quarter circle
			Published: func() float64 {
				g, c, r := 0.003, 0.001/(pi/2), 0.012
				h1 := g + c
				h3 := g*g*g + 3*g*g*c + 3*g*c*c*(pi-2) + c*c*c*(3*pi*pi/4-6)
				return 1335e3 * 2 * pi * (r*r*h1 + h3/12)
			}(),
			Allowed: 1e-12, Relative: true, Mark: cite.Independent,
		},
		hand("preform.lime.mass", "1.75 L CSD preform: mass", "g", of(limeSpec, grams), 38.81, 0.05),
		hand("preform.lime.body", "1.75 L CSD preform: cylinder", "g", of(limeSpec, func(p *Preform) float64 { return p.BodyMass() * 1e3 }), 31.91, 0.01),
		hand("preform.lime.cap", "1.75 L CSD preform: end cap, thin shell by hand", "g", of(limeSpec, func(p *Preform) float64 { return p.CapMass() * 1e3 }), 3.16, 0.02),
		hand("preform.tea.mass", "0.5 L hot-fill preform: mass", "g", of(teaSpec, grams), 27.5, 0.05),
		hand("preform.old.mass", "1.5 L CSD preform, tall neck: mass", "g", of(oldSpec, grams), 36.2, 0.05),
		hand("preform.new.mass", "1.5 L CSD preform, short neck and thinner wall: mass", "g", of(newSpec, grams), 34.0, 0.05),
		hand("preform.lime.hoop.inner", "1.75 L CSD: hoop stretch inside", "1", ratio(limeSpec, limeAim, inner), 5.02, 0.005),
		hand("preform.lime.hoop.mid", "1.75 L CSD: hoop stretch at mid-wall", "1", ratio(limeSpec, limeAim, mid), 4.26, 0.006),
		hand("preform.lime.planar", "1.75 L CSD: planar stretch by thickness", "1", ratio(limeSpec, limeAim, planar), 12.58, 0.01),
		hand("preform.lime.axial", "1.75 L CSD: axial stretch at the panel", "1", ratio(limeSpec, limeAim, local), 2.96, 0.005),
		hand("preform.tea.hoop.inner", "0.5 L hot fill: hoop stretch inside", "1", ratio(teaSpec, teaAim, inner), 3.57, 0.005),
		hand("preform.tea.hoop.mid", "0.5 L hot fill: hoop stretch at mid-wall", "1", ratio(teaSpec, teaAim, mid), 3.07, 0.005),
		hand("preform.tea.planar", "0.5 L hot fill: planar stretch by thickness", "1", ratio(teaSpec, teaAim, planar), 8.6, 0.05),
		hand("preform.tea.axial", "0.5 L hot fill: axial stretch at the panel", "1", ratio(teaSpec, teaAim, local), 2.81, 0.01),
		hand("preform.old.hoop.mid", "1.5 L CSD, old preform: hoop stretch at mid-wall", "1", ratio(oldSpec, oldAim, mid), 3.99, 0.005),
		hand("preform.old.hoop.inner", "1.5 L CSD, old preform: hoop stretch inside", "1", ratio(oldSpec, oldAim, inner), 4.65, 0.005),
		hand("preform.old.planar", "1.5 L CSD, old preform: planar stretch by thickness", "1", ratio(oldSpec, oldAim, planar), 11.5, 0.06),
		hand("preform.new.hoop.mid", "1.5 L CSD, new preform: hoop stretch at mid-wall", "1", ratio(newSpec, newAim, mid), 4.01, 0.005),
		hand("preform.new.axial", "1.5 L CSD, new preform: axial stretch at the panel", "1", ratio(newSpec, newAim, local), 2.87, 0.006),
	}
}
