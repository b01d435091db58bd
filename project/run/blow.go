package run

import (
	"fmt"
	"math"
	"strings"

	"costrel/figure"
	"costrel/num/curve"
	"costrel/physics/blow"
	"costrel/physics/preform"
	"costrel/physics/resin"
	"costrel/project/design"
	"costrel/unit"
)

// Blown is the bottle as the blow made it, along the outline from the gate.
type Blown struct {
	Result *blow.Result
	S      []float64 // arc of the outline [m]
	T      []float64 // wall at its own density [m]
	Planar []float64 // wall before over wall now
	X      []float64 // crystallinity by volume
	Places []blow.Place
}

var blowStage = stage{
	name: "blow", full: true, needs: []string{"bottle", "preform", "reheat"},
	reads: func(d *design.Design) any {
		return []any{d.Blow, d.Resin, d.Bottle.Base.Height}
	},
	keys: []string{"blow.fill.time", "blow.pressure.pre", "blow.rod.force", "blow.eject.temperature", "blow.crystallinity.panel", "blow.stretch.inner", "blow.stretch.natural", "blow.slack"},
	run: func(c *pass) (any, error) {
		shape, pre, hot := from[*Shape](c, "bottle"), from[*Preform](c, "preform"), from[*Reheated](c, "reheat")
		bc, err := blowCase(c.d, shape, pre.Body, hot)
		if err != nil {
			return nil, err
		}
		r, err := blow.Run(c.work.ctx, bc, c.report)
		if err != nil {
			return nil, err
		}
		out := blown(c.d, shape, r)
		blowFigures(c, shape, r)
		if c.work.drawn {
			blowPlots(c, shape, out)
		}
		return out, nil
	},
}

// blowCase sets the blow up from the design: profile of the bottle as mould,
// temperatures from the oven, the recipe of the process card.
func blowCase(d *design.Design, shape *Shape, p *preform.Preform, hot *Reheated) (blow.Case, error) {
	bc := blow.DefaultCase()
	law, err := resin.FindHotLaw(d.Blow.Law)
	if err != nil {
		return bc, err
	}
	bc.Law = law
	grade, err := resin.Find(d.Resin.Grade)
	if err != nil {
		return bc, err
	}
	if q, err := resin.NewQuiescent(grade); err == nil {
		bc.Crystal = resin.DefaultStrainCrystal(q)
	}
	bc.Preform = midline(p)
	bc.Heat = heatTable(p, hot)
	st, err := shape.Bottle.Stations(401)
	if err != nil {
		return bc, err
	}
	// Up the body from the outer edge of the base: the disc is closed by the
	// mould itself.
	var z, r []float64
	for i := range st.S {
		if len(z) == 0 && i+1 < len(st.S) && st.Z[i] <= 1e-9 && st.Z[i+1] <= 1e-9 && st.R[i+1] > st.R[i] {
			continue
		}
		z, r = append(z, st.Z[i]), append(r, st.R[i])
	}
	ledge := shape.Bottle.LedgeZ()
	zones := []blow.Zone{{From: 0, T: d.Blow.Body}}
	if h := d.Bottle.Base.Height; h > 0 && ledge-h > 1e-3 {
		zones = append(zones, blow.Zone{From: ledge - h, T: d.Blow.Base})
	}
	if bc.Mould, err = blow.FromStanding(z, r, ledge, zones...); err != nil {
		return bc, err
	}
	if q := shape.Bottle.BaseAreaRatio(); q > 1 {
		bc.Mould.AreaRatio, bc.Mould.AreaFrom = q, ledge-d.Bottle.Base.Height
	}
	stop := ledge - shape.Bottle.Spec().Base.PushUp - d.Blow.RodGap
	tip := p.LengthBelowLedge() - d.Preform.Gate
	if travel := stop - tip; travel < 5e-3 {
		return bc, fmt.Errorf("blow: the rod has %.1f mm to stretch, at least 5 mm are needed: the preform reaches %.1f mm below the ledge, the rod stops at %.1f mm; make preform.body_length less or the bottle taller", travel*1e3, tip*1e3, stop*1e3)
	} else if d.Blow.PreStart >= travel {
		return bc, fmt.Errorf("blow: blow.pre_start %.1f mm is not inside the %.1f mm that the rod travels: make it less", d.Blow.PreStart*1e3, travel*1e3)
	}
	rc := &bc.Recipe
	rc.Pre = blow.Stage{Pressure: d.Blow.PreBlow, Area: d.Blow.PreOrifice, Discharge: 1, Start: blow.Start{ByRod: true, Travel: d.Blow.PreStart}}
	if rc.High, err = highStage(d, stop-tip); err != nil {
		return bc, err
	}
	if d.Blow.Free {
		bc.Mould, rc.High = nil, blow.Stage{}
		rc.Duration = (stop-tip)/d.Blow.RodSpeed + freeAfter
	}
	rc.Rod = blow.Rod{Speed: d.Blow.RodSpeed, Stop: stop, Radius: math.Min(d.Blow.RodDiameter/2, d.Preform.InnerDiameter/2-0.5e-3)}
	rc.DeadVolume, rc.Hold, rc.Exhaust, rc.Contact, rc.Friction = d.Blow.DeadVolume, d.Blow.HighTime, d.Blow.ExhaustTime, d.Blow.Contact, d.Blow.Friction
	return bc, nil
}

// freeAfter is how long a free blow goes on after the rod stands [s]. Chosen
// for this project.
const freeAfter = 0.1

// highStage opens the second stage after a time, at a travel of the rod, or at
// the end of its travel.
func highStage(d *design.Design, travel float64) (blow.Stage, error) {
	s := blow.Stage{Pressure: d.Blow.High, Area: d.Blow.HighOrifice, Discharge: 1}
	pre := d.Blow.PreStart / d.Blow.RodSpeed
	switch {
	case d.Blow.HighDelay > 0:
		if d.Blow.HighDelay < pre {
			return s, fmt.Errorf("blow: blow.high_delay %.1f ms is before the pre-blow opens, %.1f ms after the rod touches: make it more, or blow.pre_start less", d.Blow.HighDelay*1e3, pre*1e3)
		}
		s.Start = blow.Start{Time: d.Blow.HighDelay}
	case d.Blow.HighStart > 0:
		if d.Blow.HighStart > travel || d.Blow.HighStart < d.Blow.PreStart {
			return s, fmt.Errorf("blow: blow.high_start %.1f mm is outside %.1f..%.1f mm, from blow.pre_start to the end of the rod's travel: move it inside, or take blow.high_delay", d.Blow.HighStart*1e3, d.Blow.PreStart*1e3, travel*1e3)
		}
		s.Start = blow.Start{ByRod: true, Travel: min(d.Blow.HighStart, travel*0.999)}
	default:
		s.Start = blow.Start{ByRod: true, Travel: travel * 0.999}
	}
	return s, nil
}

// midline returns the preform's mid-line from the ledge to the gate.
func midline(p *preform.Preform) blow.Preform {
	const n = 160
	var out blow.Preform
	for i := 0; i <= n; i++ {
		s := p.ArcLength() * (1 - float64(i)/n)
		sec := p.At(s)
		r := sec.Rm
		if i == n {
			r = 0
		}
		out.Z, out.R, out.Wall = append(out.Z, sec.BelowLedge), append(out.R, r), append(out.Wall, sec.Wall)
	}
	return out
}

// heatTable turns the oven's field, from the gate, into a table from the ledge.
func heatTable(p *preform.Preform, hot *Reheated) blow.Heat {
	const n, layers = 61, 9
	h := blow.Heat{X: make([]float64, layers)}
	for j := range h.X {
		h.X[j] = float64(j) / (layers - 1)
	}
	for i := range n {
		s := p.ArcLength() * float64(i) / (n - 1)
		row := make([]float64, layers)
		for j, x := range h.X {
			row[j] = float64(hot.Field.At(p.ArcLength()-s, x))
		}
		h.S, h.T = append(h.S, s), append(h.T, row)
	}
	return h
}

// blown lays the wall of the blow along the outline of the bottle. The arcs of
// mid-line and outline differ by less than the wall; the mass is held exactly.
func blown(d *design.Design, shape *Shape, r *blow.Result) *Blown {
	places := r.Places
	last := places[len(places)-1]
	k := shape.Bottle.ArcLength() / (last.Arc + last.Length/2)
	density := d.Resin.DensityPreform / d.Resin.DensityWall
	out := &Blown{Result: r, Places: places}
	for _, p := range places {
		out.S = append(out.S, p.Arc*k)
		out.T = append(out.T, p.Wall*density)
		out.Planar = append(out.Planar, p.Areal)
		out.X = append(out.X, p.X)
	}
	return out
}

// along returns wall and planar stretch of the blow at an arc of the outline.
func (b *Blown) along(s float64) (t, planar float64) {
	i, j, f := bracket(b.S, s)
	return b.T[i] + f*(b.T[j]-b.T[i]), b.Planar[i] + f*(b.Planar[j]-b.Planar[i])
}

// naturalRate is the rate at which the natural stretch is asked [1/s], the
// middle of the high stage.
const naturalRate = 16.0

const blowMethod = "Layered shell of revolution with inertia, rate-dependent hot plastic, air by mass, rod and mould contact"

func blowOrigin(c *pass, equation string, r *blow.Result) figure.Origin {
	return figure.Origin{
		Method: blowMethod, Equation: equation, Sources: []string{"BuckleyJones1995", "AdamsBuckleyJones2000"}, Theory: "blow", Warnings: blowWarnings(r),
		Inputs: []figure.Input{
			c.input("m", "preform.mass"), c.given("T", "oven.mean_temperature"), c.given("p_pre", "blow.pre_blow"), c.given("p", "blow.high_blow"), c.given("v_rod", "blow.rod_speed"),
			c.given("s_pre", "blow.pre_start"), c.given("A_pre", "blow.pre_orifice"), c.given("A_high", "blow.high_orifice"), c.given("V_dead", "blow.dead_volume"), c.given("h", "blow.contact"),
		},
	}
}

// blowWarnings gathers what a reader of the blow must know.
func blowWarnings(r *blow.Result) []string {
	out := append([]string{}, r.Warnings...)
	for _, f := range r.Flags {
		out = append(out, string(f.Kind)+": "+f.Text)
	}
	return out
}

func blowFigures(c *pass, shape *Shape, r *blow.Result) {
	if c.d.Blow.Free {
		c.problem("blow.fill.time", "a free blow fills no mould: set blow.free false")
	} else if r.Filled {
		c.figure("blow.fill.time", r.FillTime, blowOrigin(c, "t = time at which the last part touches the mould", r))
	} else {
		c.problem("blow.fill.time", "the bottle is not filled: %s", strings.Join(blowWarnings(r), "; "))
	}
	c.figure("blow.pressure.pre", r.PeakPre, blowOrigin(c, "p = max p(t), before the high stage", r))
	c.figure("blow.rod.force", r.PeakRod, blowOrigin(c, "F = max F(t)", r))
	hot, panelX, panelMass, inner, slack := 0.0, 0.0, 0.0, 0.0, math.Inf(1)
	ledge := shape.Bottle.LedgeZ()
	for _, p := range r.Places {
		z := ledge - p.Z
		if p.Z > 10e-3 { // the neck keeps the heat of the oven in any blow
			hot = math.Max(hot, p.T)
		}
		inner = math.Max(inner, p.HoopIn*p.Axial)
		slack = math.Min(slack, p.Slack)
		if z >= shape.Panel[0] && z <= shape.Panel[1] {
			panelX, panelMass = panelX+p.X*p.Mass, panelMass+p.Mass
		}
	}
	if c.d.Blow.Free {
		panelMass = 0
		for _, key := range []string{"blow.eject.temperature", "blow.crystallinity.panel"} {
			c.problem(key, "a free blow leaves no mould and has no panel: set blow.free false")
		}
	} else {
		c.figure("blow.eject.temperature", hot, blowOrigin(c, "T_e = max T_wall at ejection, from 10 mm below the ledge", r))
	}
	c.figure("blow.stretch.inner", inner, blowOrigin(c, "λ = max λ_hoop,in λ_axial", r))
	if law, err := resin.FindHotLaw(c.d.Blow.Law); err == nil {
		if n, warn, err := resin.NaturalStretch(law, float64(c.d.Oven.Mean), naturalRate); err != nil {
			c.problem("blow.stretch.natural", "%v", err)
		} else {
			c.figure("blow.stretch.natural", n*n, figure.Origin{
				Method: "Balloon of the hot law at constant temperature and rate: where the pressure turns up again", Equation: "λ_n = λ², dp/dλ = 0 past the greatest p ∝ σ / λ³", Sources: []string{"BuckleyJones1995", "AdamsBuckleyJones2000"}, Theory: "hotlaws", Warnings: warn,
				Inputs: []figure.Input{c.given("T", "oven.mean_temperature"), computed("blow.law", "λ", "Hot law: natural stretch of a balloon", n, unit.Ratio)},
			})
		}
	}
	c.figure("blow.slack", slack, blowOrigin(c, "q = min (1 - α² I_1)", r))
	if panelMass > 0 {
		c.figure("blow.crystallinity.panel", panelX/panelMass, blowOrigin(c, "φ = ∫ φ dm / m_panel", r))
	}
}

func blowPlots(c *pass, shape *Shape, b *Blown) {
	r := b.Result
	n := len(r.History)
	t, p, v, f, air, touch := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	for i, m := range r.History {
		t[i], p[i], v[i], f[i], air[i], touch[i] = m.Time, m.Pressure, m.Volume, m.RodForce, m.Air, m.Contact
	}
	// The blow itself is short; the cooling behind it is long and dull.
	cut := n
	if r.Filled {
		for i := range t {
			if t[i] > 1.6*r.FillTime {
				cut = i
				break
			}
		}
	}
	time := Axis{Label: "time from rod contact", Kind: unit.Time, Unit: "ms"}
	marks := []Mark{{At: r.RodEnd, Label: "rod stands"}}
	if r.Filled {
		marks = append(marks, Mark{At: r.FillTime, Label: "filled"})
	}
	c.plot(Plot{Key: "blow.pressure", Title: "Pressure in the bottle", X: time, Y: Axis{Label: "pressure", Kind: unit.PressureGauge}, Marks: marks, Series: []Series{{Name: "air", X: t[:cut], Y: p[:cut]}}})
	c.plot(Plot{Key: "blow.volume", Title: "Volume inside", X: time, Y: Axis{Label: "volume", Kind: unit.Volume, Unit: "mL"}, Marks: marks, Series: []Series{{Name: "bubble", X: t[:cut], Y: v[:cut]}}})
	c.plot(Plot{Key: "blow.rod", Title: "Force on the rod", X: time, Y: Axis{Label: "force", Kind: unit.Force}, Marks: marks, Series: []Series{{Name: "rod", X: t[:cut], Y: f[:cut]}}})
	c.plot(Plot{Key: "blow.contact", Title: "Wall on the mould", X: time, Y: Axis{Label: "share of the mass", Kind: unit.Fraction, Unit: "%"}, Marks: marks, Series: []Series{{Name: "contact", X: t[:cut], Y: touch[:cut]}}})
	m := len(b.Places)
	tip := make([]float64, cut)
	for i := range tip {
		tip[i] = r.History[i].RodTip
	}
	c.plot(Plot{Key: "blow.tip", Title: "Rod and gate", X: time, Y: Axis{Label: "depth below the ledge", Kind: unit.Length, Unit: "mm"}, Marks: marks, Series: []Series{{Name: "tip of the rod", X: t[:cut], Y: tip}}})
	in, ax, temp, x := make([]float64, m), make([]float64, m), make([]float64, m), make([]float64, m)
	for i, q := range b.Places {
		in[i], ax[i], temp[i], x[i] = q.HoopIn, q.Axial, q.T, q.X
	}
	arc := Axis{Label: "arc from the gate", Kind: unit.Length, Unit: "mm"}
	c.plot(Plot{Key: "blow.wall", Title: "Wall as blown", X: arc, Y: Axis{Label: "wall", Kind: unit.Length, Unit: "mm"}, Series: []Series{{Name: "blown", X: b.S, Y: b.T}}})
	c.plot(Plot{Key: "blow.stretch", Title: "Stretch of the blown wall", X: arc, Y: Axis{Label: "stretch ratio", Kind: unit.Ratio}, Series: []Series{{Name: "hoop, inside", X: b.S, Y: in}, {Name: "axial", X: b.S, Y: ax}}})
	c.plot(Plot{Key: "blow.temperature", Title: "Wall temperature at ejection", X: arc, Y: Axis{Label: "temperature", Kind: unit.TemperaturePoint}, Series: []Series{{Name: "mean", X: b.S, Y: temp}}})
	c.plot(Plot{Key: "blow.crystallinity", Title: "Crystallinity of the wall", X: arc, Y: Axis{Label: "crystallinity", Kind: unit.Fraction, Unit: "%"}, Series: []Series{{Name: "wall", X: b.S, Y: x}}})
}

// blownWall returns wall and planar stretch of the blow at the stations of the
// draw-down, with the mass of the preform held and the panel factor applied.
func blownWall(d *design.Design, shape *Shape, mass float64, s []float64, b *Blown) (t, planar []float64, err error) {
	t, planar = make([]float64, len(s)), make([]float64, len(s))
	for i := range s {
		t[i], planar[i] = b.along(s[i])
	}
	if err := panelFactor(d, shape, s, t); err != nil {
		return nil, nil, err
	}
	// Arc and mid-line differ a little: hold the mass.
	body := mass - d.Finish.Mass
	for range 3 {
		sections, err := shape.Bottle.Sections(curve.Wall{S: s, T: t}, d.Resin.DensityWall, 0, shape.Planes)
		if err != nil {
			return nil, nil, err
		}
		sum := 0.0
		for _, q := range sections {
			sum += q.Mass
		}
		if !(sum > 0) {
			return nil, nil, fmt.Errorf("wall: the blown wall has no mass")
		}
		k := body / sum
		for i := range t {
			t[i] *= k
		}
	}
	return t, planar, nil
}

// panelFactor multiplies the wall between the planes and takes the material
// from the rest, evenly.
func panelFactor(d *design.Design, shape *Shape, s, t []float64) error {
	f := d.Blow.WallFactor
	if f == 1 || len(shape.Planes) != 2 {
		return nil
	}
	a, b := shape.Bottle.CutS(shape.Planes[0]), shape.Bottle.CutS(shape.Planes[1])
	sections, err := shape.Bottle.Sections(curve.Wall{S: s, T: t}, d.Resin.DensityWall, 0, shape.Planes)
	if err != nil {
		return err
	}
	rest := sections[0].Mass + sections[2].Mass
	g := 1 - (f-1)*sections[1].Mass/rest
	if g < 0.2 {
		return fmt.Errorf("wall: a panel factor of %.3g leaves too little for base and shoulder", f)
	}
	// A short ramp on each side keeps the wall smooth.
	const ramp = 5e-3
	for i := range t {
		w := math.Min(math.Min((s[i]-a)/ramp+0.5, (b-s[i])/ramp+0.5), 1)
		w = math.Max(w, 0)
		t[i] *= g + (f-g)*w
	}
	return nil
}
