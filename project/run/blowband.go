package run

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"maps"
	"math"
	"runtime"
	"slices"
	"sort"

	"costrel/figure"
	"costrel/num/curve"
	"costrel/physics/blow"
	"costrel/physics/resin"
	"costrel/project/design"
	"costrel/unit"
)

// processSpreads are the uncertain numbers of the process that move a blow, each
// to the ends of its 95 % range. How well the model itself knows the wall stands
// in [spreads], at blow.wall_factor. Friction by 0.1 and the wall of the preform
// by its tolerance move the sections of the demo by less than a tenth of what the
// level of its temperature does, and are left out.
var processSpreads = []spread{
	{path: "oven.mean_temperature", by: 3, basis: "preform temperature ± ‹3 K›, common practice", when: temperatureGiven, set: shiftPreform},
	{path: "oven.overall", by: 0.05, rel: true, basis: "lamp power ± 5 %, chosen for this project", when: func(d *design.Design) bool { return d.Oven.Lamps == "power" }},
	{path: "oven.tilt", by: 2, basis: "tilt of the preform temperature ± ‹2 K›, chosen for this project", when: func(d *design.Design) bool { return d.Oven.Lamps == "card" }},
	{path: "blow.pre_blow", by: 0.5e5, basis: "regulator ± ‹0.5 bar›, common practice"},
	{path: "blow.pre_orifice", by: 0.2, rel: true, basis: "flow of the pre-blow ± 20 %, chosen for this project"},
	{path: "blow.rod_speed", by: 0.05, rel: true, basis: "rod speed ± 5 %, chosen for this project"},
	{path: "blow.contact", by: 0.47, log: true, basis: "contact heat times or divided by 1.6, from memory, low confidence"},
}

func temperatureGiven(d *design.Design) bool { return d.Oven.Lamps != "power" }

// shiftPreform moves the level of the preform temperature, inside and outside
// with the mean.
func shiftPreform(d *design.Design, by float64) {
	d.Oven.Mean += unit.Temperature(by)
	d.Oven.Inside += unit.Temperature(by)
	d.Oven.Outside += unit.Temperature(by)
}

// blowMove is what one uncertain number of the process does to the figures of a
// blow.
type blowMove struct {
	path, label, basis string
	by                 map[string][2]float64 // figure at the low and the high end, less that of the design
	broken             string                // why an end could not be blown
}

// coarse are the numbers of a blow that only tells how figures move: on the demo
// the slopes of section weights over preform temperature are within 10 % of those
// of the default, in a seventh of the time (TestBlowBand).
func coarse(n *blow.Numbers) {
	n.Elements, n.Layers, n.StepMost, n.StrainMost, n.FrameEvery = 30, 2, 1e-3, 0.1, 0
}

// bandBlow gives the figures of blow and wall of a full run the effects of the
// process. The coarse blows behind them are kept with the wall.
func bandBlow(d *design.Design, w work, done map[string]*entry, figures []figure.Figure, cache *Cache) {
	e, wall, bottle := done["blow"], done["wall"], done["bottle"]
	if e == nil || e.err != nil || wall == nil || w.until != "" && w.until != sectionStage.name || !d.Blow.Free && unformed(e.out.(*Blown).Result) != "" {
		return
	}
	shape := bottle.out.(*Shape)
	key := sha256.Sum256(append([]byte("moves"), wall.key[:]...))
	if kept, ok := cache.kept(key); ok {
		movedBy(d, figures, kept.out.(*blowTrials).moves(d, shape))
		return
	}
	if w.ran != nil {
		w.ran(bandsOfBlow)
	}
	trials, err := newBlowTrials(w.ctx, d, shape, func(share float64) {
		if w.progress != nil {
			w.progress(bandsOfBlow, share)
		}
	})
	if err != nil {
		return // withdrawn: the figures keep no band
	}
	cache.keep(key, &entry{key: key, out: trials, slow: true})
	movedBy(d, figures, trials.moves(d, shape))
}

// blowTrials are the coarse blows behind the bands of a blow: of the design and of both ends of every uncertain number of its process.
type blowTrials struct {
	Still blowTrial
	Ends  []blowEnds
}

// processSpreadsOf returns the uncertain numbers of the process of a design.
func processSpreadsOf(d *design.Design) []spread {
	return slices.DeleteFunc(slices.Clone(processSpreads), func(s spread) bool { return s.when != nil && !s.when(d) })
}

// newBlowTrials blows the design with every uncertain number of the process at both
// ends. done is told the share that is done.
func newBlowTrials(ctx context.Context, d *design.Design, shape *Shape, done func(float64)) (*blowTrials, error) {
	list := processSpreadsOf(d)
	out := &blowTrials{Ends: make([]blowEnds, len(list))}
	told := make(chan struct{}, len(list)+1)
	next := make(chan int, len(list)+1)
	for k := range len(list) + 1 {
		next <- k
	}
	close(next)
	for range min(runtime.GOMAXPROCS(0), 4) {
		go func() {
			for k := range next {
				if k == len(list) {
					out.Still, _ = newBlowTrial(ctx, d, shape) // where it fails the ends are held against each other
				} else {
					out.Ends[k] = list[k].blow(ctx, d, shape)
				}
				told <- struct{}{}
			}
		}()
	}
	for k := range len(list) + 1 {
		<-told
		done(float64(k+1) / float64(len(list)+1))
	}
	return out, ctx.Err()
}

// moves returns what every uncertain number does to the figures of the design.
func (t *blowTrials) moves(d *design.Design, shape *Shape) []blowMove {
	still := t.Still.weighed(d, shape)
	out := make([]blowMove, len(t.Ends))
	for k, s := range processSpreadsOf(d) {
		it, _ := design.Lookup(s.path)
		e := t.Ends[k]
		figures := [2]map[string]float64{e.Trials[0].weighed(d, shape), e.Trials[1].weighed(d, shape)}
		out[k] = blowMove{path: s.path, label: it.Section + ": " + it.Field.Label, basis: s.basis, by: movedEnds(figures, still), broken: e.Fault}
	}
	return out
}

// blowEnds are the blows at both ends of a spread; an end that failed has none.
type blowEnds struct {
	Trials [2]blowTrial
	Fault  string // why an end could not be blown
}

// blow runs the two ends of a spread.
func (s spread) blow(ctx context.Context, d *design.Design, shape *Shape) (out blowEnds) {
	var fault error
	v := 0.0
	if s.set == nil {
		v, _, _ = d.Number(s.path)
	}
	lo, hi := s.ends(v)
	for k, x := range []float64{lo, hi} {
		c := d.Clone()
		if s.set != nil {
			s.set(c, x)
		} else {
			c.SetNumber(s.path, clip(s.path, x))
		}
		var err error
		if out.Trials[k], err = newBlowTrial(ctx, c, shape); err != nil {
			fault = errors.Join(fault, err)
		}
	}
	if fault != nil {
		out.Fault = fault.Error()
	}
	return out
}

// movedEnds returns what each end does to the figures of the design, each for itself:
// near a least or greatest value both may lie on one side. Where an end failed the
// other stands for it mirrored; where the design itself did, both have half of
// their difference.
func movedEnds(ends [2]map[string]float64, still map[string]float64) map[string][2]float64 {
	out := map[string][2]float64{}
	for k, figures := range ends {
		for key, x := range figures {
			c, centred := still[key]
			y, paired := ends[1-k][key]
			by := out[key]
			switch {
			case centred && paired:
				by[k] = x - c
			case centred:
				by[k], by[1-k] = x-c, c-x
			case paired:
				by[k] = (x - y) / 2
			default:
				continue
			}
			out[key] = by
		}
	}
	return out
}

// blowTrial is a coarse blow of a design: its figures, nil where it failed, and
// its wall, of which the cut planes make those of the sections.
type blowTrial struct {
	Figures map[string]float64
	Wall    curve.Wall // empty of a free blow
}

func newBlowTrial(ctx context.Context, d *design.Design, shape *Shape) (t blowTrial, err error) {
	b, err := blowCoarse(ctx, d, shape)
	if err != nil {
		return t, err
	}
	out := blowValues(d, shape, b.result)
	for _, f := range b.done["reheat"].figures {
		out[f.Key] = f.Value
	}
	if n, _, err := resin.NaturalStretch(b.c.Law, float64(d.Oven.Mean), naturalRate); err == nil {
		out["blow.stretch.natural"] = n * n
	}
	if d.Blow.Free {
		return blowTrial{Figures: out}, nil
	}
	if why := unformed(b.result); why != "" {
		return t, errors.New(why)
	}
	w := curve.Wall{S: span(0, shape.Bottle.ArcLength(), 201)}
	if w.T, _, err = blownWall(d, shape, b.pre.Mass, w.S, blown(d, shape, b.result)); err != nil {
		return t, err
	}
	parts, err := shape.Bottle.Sections(w, d.Resin.DensityWall, d.Finish.Mass, shape.parts(d))
	if err != nil {
		return t, err
	}
	out["wall.min"] = slices.Min(w.T)
	if len(parts) == 3 {
		panel := parts[1].MeanWall
		planar := d.Preform.Wall * d.Resin.DensityPreform / (panel * d.Resin.DensityWall)
		out["wall.panel.mean"], out["preform.ratio.planar"] = panel, planar
		out["preform.ratio.axial"] = planar * (d.Preform.InnerDiameter + d.Preform.Wall) / (d.Bottle.PanelDiameter - panel)
	}
	return blowTrial{out, w}, nil
}

// weighed returns the figures of a trial with those of the sections.
func (t blowTrial) weighed(d *design.Design, shape *Shape) map[string]float64 {
	out := maps.Clone(t.Figures)
	if len(t.Wall.S) == 0 {
		return out
	}
	sections, err := shape.Bottle.Sections(t.Wall, d.Resin.DensityWall, d.Finish.Mass, shape.cut(d))
	if err != nil {
		return out // then the design has no sections either
	}
	for _, q := range sections {
		out["section."+q.Name+".mass"] = q.Mass
	}
	return out
}

// movedBy gives figures the effects of the process, or what a fit has left of them.
func movedBy(d *design.Design, figures []figure.Figure, moves []blowMove) {
	for i := range figures {
		f := &figures[i]
		made := false // a figure that no blow makes keeps the band it has
		for _, m := range moves {
			by, ok := m.by[f.Key]
			made = made || ok
			if ok && f.Effects == nil {
				f.Effects = []figure.Effect{}
			}
			if ok && max(math.Abs(by[0]), math.Abs(by[1])) > 1e-9*math.Abs(f.Value) {
				f.Effects = append(f.Effects, figure.Effect{Path: m.path, Label: m.label, Low: by[0], High: by[1], Basis: m.basis})
			}
			if ok && m.broken != "" {
				f.Origin.Warnings = append(slices.Clip(f.Origin.Warnings), fmt.Sprintf("%s%s (%s)", incomplete, m.label, m.broken))
			}
		}
		if made {
			fittedMoves(d, f)
			lay(f)
		}
	}
}

// lay puts the band of a figure from its effects, each side in squares.
func lay(f *figure.Figure) {
	up, down := 0.0, 0.0
	for _, e := range f.Effects {
		hi, lo := max(e.Low, e.High, 0), min(e.Low, e.High, 0)
		up, down = up+hi*hi, down+lo*lo
	}
	inside(f, f.Value-math.Sqrt(down), f.Value+math.Sqrt(up))
	sort.SliceStable(f.Effects, func(a, b int) bool { return f.Effects[a].Size() > f.Effects[b].Size() })
}
