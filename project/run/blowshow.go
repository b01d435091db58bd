package run

import (
	"costrel/figure"
	"costrel/physics/blow"
	"costrel/physics/oven"
	"costrel/physics/resin"
	"costrel/project/design"
	"costrel/unit"
)

// naturalRate is the rate at which the natural stretch is asked [1/s], the
// middle of the high stage.
const naturalRate = 16.0

// blowFigures gives the figures of a blow. One that made no bottle has a course,
// pressure and force, and no wall to speak of.
func blowFigures(c *pass, shape *Shape, r *blow.Result) {
	c.figure("blow.pressure.pre", r.PeakPre, preOrigin(c, r))
	c.figure("blow.rod.force", r.PeakRod, rodOrigin(c, r))
	naturalFigure(c)
	if c.d.Blow.Free {
		c.problem("blow.fill.time", "a free blow fills no mould: set blow.free false")
		for _, key := range []string{"blow.eject.temperature", "blow.crystallinity.panel"} {
			c.problem(key, "a free blow leaves no mould and has no panel: set blow.free false")
		}
	} else if why := unformed(r); why != "" {
		c.problem("blow.fill.time", "the blow made no bottle: %s%s", why, lawNote(c.d.Blow.Law))
		for _, key := range []string{"blow.eject.temperature", "blow.crystallinity.panel", "blow.stretch.inner", "blow.slack"} {
			c.problem(key, "the blow made no bottle; see blow.fill.time")
		}
		return
	}
	values := blowValues(c.d, shape, r)
	for _, q := range [...]struct {
		key    string
		origin func(c *pass, shape *Shape, r *blow.Result) figure.Origin
	}{
		{"blow.fill.time", fillOrigin},
		{"blow.eject.temperature", ejectOrigin},
		{"blow.crystallinity.panel", crystalOrigin},
		{"blow.stretch.inner", innerOrigin},
		{"blow.slack", slackOrigin},
	} {
		if v, ok := values[q.key]; ok {
			c.figure(q.key, v, q.origin(c, shape, r))
		}
	}
}

// blowValues returns the numbers of a blow by the key of their figure: those of
// a bottle where there is a mould.
func blowValues(d *design.Design, shape *Shape, r *blow.Result) map[string]float64 {
	panelX, panelMass := panelCrystals(shape, r)
	inner := worst(r, func(p *blow.Place) float64 { return p.HoopIn * p.Axial })
	slack := worst(r, func(p *blow.Place) float64 { return -p.Slack })
	out := map[string]float64{"blow.pressure.pre": r.PeakPre, "blow.rod.force": r.PeakRod, "blow.stretch.inner": inner.HoopIn * inner.Axial, "blow.slack": slack.Slack}
	if d.Blow.Free {
		return out
	}
	out["blow.fill.time"], out["blow.eject.temperature"] = r.FillTime, worst(r, hotBelowNeck).T
	if panelMass > 0 {
		out["blow.crystallinity.panel"] = panelX / panelMass
	}
	return out
}

// worst returns the place with the greatest of a number.
func worst(r *blow.Result, of func(p *blow.Place) float64) *blow.Place {
	at := &r.Places[0]
	for i := range r.Places {
		if p := &r.Places[i]; of(p) > of(at) {
			at = p
		}
	}
	return at
}

// hotBelowNeck is the temperature of a place at ejection [K], nothing in the
// neck.
func hotBelowNeck(p *blow.Place) float64 {
	if p.Z <= blow.NeckDepth {
		return 0
	}
	return p.T
}

// panelCrystals returns the plastic of the panel times its crystallinity, and the
// plastic [kg].
func panelCrystals(shape *Shape, r *blow.Result) (weighted, mass float64) {
	ledge := shape.Bottle.LedgeZ()
	for _, p := range r.Places {
		if z := ledge - p.Z; z >= shape.Panel[0] && z <= shape.Panel[1] {
			weighted, mass = weighted+p.X*p.Mass, mass+p.Mass
		}
	}
	return weighted, mass
}

// naturalFigure gives the natural stretch of the hot law.
func naturalFigure(c *pass) {
	law, err := resin.FindHotLaw(c.d.Blow.Law)
	if err != nil {
		return
	}
	n, warn, err := resin.NaturalStretch(law, float64(c.d.Oven.Mean), naturalRate)
	if err != nil {
		c.problem("blow.stretch.natural", "%v", err)
		return
	}
	c.figure("blow.stretch.natural", n*n, figure.Origin{
		Method: "Balloon of the hot law at constant temperature and rate: where the pressure turns up again", Equation: "λ_n = λ², where the pressure of the balloon turns up again past its peak", Sources: []string{"BuckleyJones1995", "AdamsBuckleyJones2000"}, Theory: "hotlaws", Warnings: warn,
		Inputs: []figure.Input{c.given("T", "oven.mean_temperature"), computed("blow.law", "λ", "Hot law: natural stretch of a balloon", n, unit.Ratio)},
	})
}

// blownStretch is the title of the plot of the stretch of the blown wall.
const blownStretch = "Stretch of the blown wall"

func blowPlots(c *pass, b *Blown, hot *oven.Field) {
	r := b.Result
	n := len(r.History)
	t, p, v, f, air, touch := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	for i, m := range r.History {
		t[i], p[i], v[i], f[i], air[i], touch[i] = m.Time, m.Pressure, m.Volume, m.RodForce, m.Air, m.Contact
	}
	// The blow itself is short; the cooling behind it is long and dull.
	cut := 0
	for cut < n && t[cut] <= traced(r) {
		cut++
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
	tip := make([]float64, cut)
	for i := range tip {
		tip[i] = r.History[i].RodTip
	}
	c.plot(Plot{Key: "blow.tip", Title: "Rod and gate", X: time, Y: Axis{Label: "depth below the ledge", Kind: unit.Length, Unit: "mm"}, Marks: marks, Series: []Series{{Name: "tip of the rod", X: t[:cut], Y: tip}}})
	if !c.d.Blow.Free && unformed(r) != "" {
		return // there is no wall to show
	}
	m := len(b.Places)
	in, ax, temp, x := make([]float64, m), make([]float64, m), make([]float64, m), make([]float64, m)
	for i, q := range b.Places {
		in[i], ax[i], temp[i], x[i] = q.HoopIn, q.Axial, q.T, q.X
	}
	arc := Axis{Label: "arc from the gate", Kind: unit.Length, Unit: "mm"}
	if c.d.Blow.Free {
		// It lies along the bubble, not along the bottle, and is no wall of it.
		arc.Label = "arc of the bubble from the gate"
		c.plot(Plot{Key: "blow.wall", Title: "Wall of the free bubble", X: arc, Y: Axis{Label: "wall", Kind: unit.Wall}, Series: []Series{{Name: "bubble", X: b.S, Y: b.T}}})
	} else {
		before := make([]float64, m)
		for i, q := range b.Places {
			before[i] = preformAt(hot, q.Origin)
		}
		c.plot(Plot{
			Key: "reheat.bottle", Stage: "reheat", Title: "Preform temperature at blow, carried to the bottle", X: arc, Y: Axis{Label: "temperature", Kind: unit.TemperaturePoint}, Series: []Series{{Name: "mean", X: b.S, Y: before}},
			Note: "at each place of the bottle the temperature that its plastic had in the preform, mean through the wall, as the blow began; the blow tells which place that was",
		})
	}
	c.plot(Plot{Key: "blow.stretch", Title: blownStretch, X: arc, Y: Axis{Label: "stretch ratio", Kind: unit.Ratio}, Series: []Series{{Name: "hoop, inside", X: b.S, Y: in}, {Name: "axial", X: b.S, Y: ax}}})
	c.plot(Plot{Key: "blow.temperature", Title: "Wall temperature at ejection", X: arc, Y: Axis{Label: "temperature", Kind: unit.TemperaturePoint}, Series: []Series{{Name: "mean", X: b.S, Y: temp}}})
	c.plot(Plot{Key: "blow.crystallinity", Title: "Crystallinity of the wall", X: arc, Y: Axis{Label: "crystallinity", Kind: unit.Fraction, Unit: "%"}, Series: []Series{{Name: "wall", X: b.S, Y: x}}})
}

// preformAt returns the temperature of the preform [K], mean through the wall,
// at an arc from its gate [m].
func preformAt(f *oven.Field, s float64) float64 {
	i, j, x := bracket(f.S, s)
	return f.Mean[i] + x*(f.Mean[j]-f.Mean[i])
}
