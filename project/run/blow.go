package run

import (
	"fmt"
	"math"

	"costrel/num/curve"
	"costrel/physics/blow"
	"costrel/project/design"
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
		if note := lawNote(c.d.Blow.Law); err != nil && note != "" && c.work.ctx.Err() == nil {
			return nil, fmt.Errorf("%w%s", err, note)
		}
		if err != nil {
			return nil, err
		}
		out := blown(c.d, shape, r)
		blowFigures(c, shape, r)
		if c.work.drawn {
			blowPlots(c, out, hot.Field)
		}
		return out, nil
	},
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
		sections, err := shape.Bottle.Sections(curve.Wall{S: s, T: t}, d.Resin.DensityWall, 0, shape.parts(d))
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

// panelFactor multiplies the wall of the panel and takes the material
// from the rest, evenly.
func panelFactor(d *design.Design, shape *Shape, s, t []float64) error {
	f := d.Blow.WallFactor
	planes := shape.parts(d)
	if f == 1 || len(planes) != 2 {
		return nil
	}
	a, b := shape.Bottle.CutS(planes[0]), shape.Bottle.CutS(planes[1])
	sections, err := shape.Bottle.Sections(curve.Wall{S: s, T: t}, d.Resin.DensityWall, 0, planes)
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
