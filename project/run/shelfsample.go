package run

import (
	"fmt"
	"math"
	"runtime"
	"slices"
	"strings"

	"costrel/figure"
	"costrel/num/sample"
	"costrel/physics/permeation"
)

// samples of the band of a full check, and the seed that makes them the same
// every time.
const (
	shelfSamples = 512
	shelfSeed    = 20261125
)

// sampledBand says how the bands of a full check of life and hot fill are made.
var sampledBand = fmt.Sprintf("%d quasi-random draws of all uncertain numbers together, always the same", shelfSamples)

// How finely the lives of bands are computed: the ends of single inputs, where
// the effect of the mesh falls out of the difference, and the sample.
var (
	silentLife  = permeation.Options{Cells: 4, Tolerance: 1e-2}
	sampledLife = permeation.Options{Cells: 6, Tolerance: 1e-4}
)

// draw is the set of uncertain inputs of a life: those of the case, and those
// of what a hot-filled pack closes in.
type draw struct {
	*shelfLife
	cold []permeation.Uncertain
	hot  []hotUncertain
	base *hotCase // nil for a pack filled cold
}

// hotUncertain is an uncertain input of the hot-filled pack at closing.
type hotUncertain struct {
	key, label, basis string
	move              func(h *hotCase, z float64)
}

// newDraw gathers the uncertain inputs of the life.
func (s *shelfLife) newDraw() (*draw, error) {
	d := &draw{shelfLife: s, cold: append(s.pc.Uncertainties(), s.drinkUncertainties()...)}
	if w := from[*Wall](s.pass, "wall"); w.Blown != nil && s.pc.Known.At == 0 && !tight(s.d) {
		d.cold = append(d.cold, computedWall(s.d))
		if localWall(s.d, w) {
			d.cold = append(d.cold, computedCrystals())
		}
	}
	if !hotFilled(s.d) {
		return d, nil
	}
	var err error
	d.base, err = s.hotPack()
	d.hot = hotUncertainties()
	return d, err
}

func (d *draw) size() int { return len(d.cold) + len(d.hot) }

// sampledPaths are the places in the design of the inputs that have one.
var sampledPaths = map[string]string{
	"factor": "shelf.barrier_factor", "closure": "closure.co2", "temperature": "climate.store", "fill": "brief.nominal", "wall": "blow.wall_factor",
	"carbonation": "drink.carbonation", "air": "drink.headspace_air", "panels": "hotfill.panel_compliance", "shrinkage": "hotfill.shrinkage",
	"headspace": "hotfill.headspace_temperature", "filling": "drink.fill_temperature", "steam": "hotfill.air_share", "dissolved": "drink.nitrogen_dissolved", "nitrogen": "drink.nitrogen",
	"brimful": "bottle.wall", "end": "hotfill.end_temperature", "record": "hotfill.record", "hold": "hotfill.hold_time", "cooling": "hotfill.cooling_time",
}

// path returns where in the design an input of the sample stands; the key of the
// input where it stands nowhere.
func (s *shelfLife) path(key string) string {
	if key == "temperature" && hasLane(s.d) {
		return "climate.lane"
	}
	if p, ok := sampledPaths[key]; ok {
		return p
	}
	return key
}

// input returns key, label and basis of an input.
func (d *draw) input(i int) (key, label, basis string) {
	if i < len(d.cold) {
		return d.cold[i].Key, d.cold[i].Label, d.cold[i].Basis
	}
	u := d.hot[i-len(d.cold)]
	return u.key, u.label, u.basis
}

// moved returns the case with every input at its score.
func (d *draw) moved(z []float64) (permeation.Case, error) {
	c, err := d.pc.Moved(d.cold, z[:len(d.cold)])
	if err != nil || d.base == nil {
		return c, err
	}
	h := *d.base
	for i, u := range d.hot {
		u.move(&h, z[len(d.cold)+i])
	}
	return c, h.start(&c)
}

// sampled gives the figures of the life bands of their own: the inputs of the
// barrier cards, of the closed pack and of the lane drawn together,
// quasi-randomly, and ranked by what they cause. The trace of the carbonation
// gets the band of the same lives.
func (s *shelfLife) sampled(until float64) {
	d, err := s.newDraw()
	if err != nil {
		s.problem("shelf", "no sampled band: %v", err)
		return
	}
	z, err := sample.Normal(shelfSamples, d.size(), shelfSeed)
	if err != nil {
		s.problem("shelf", "no sampled band: %v", err)
		return
	}
	var keys []string
	for _, v := range s.values(s.life) {
		if v.why == "" {
			keys = append(keys, v.key)
		}
	}
	trace := s.trace("shelf.carbonation")
	out, err := sample.Evaluate(z, runtime.GOMAXPROCS(0), func(z []float64) ([]float64, error) {
		if err := s.work.ctx.Err(); err != nil {
			return nil, err
		}
		moved, err := d.moved(z)
		if err != nil {
			return nil, err
		}
		life, err := moved.Run(until, sampledLife)
		if err != nil {
			return nil, err
		}
		return s.sampleRow(life, keys, trace), nil
	})
	if err != nil || s.work.ctx.Err() != nil {
		s.problem("shelf", "no sampled band: %v", err)
		return
	}
	for i, k := range keys {
		for j := range s.figures {
			if f := &s.figures[j]; f.Key == k {
				s.band(f, d, out, i)
			}
		}
	}
	bandOfTrace(trace, out, len(keys))
}

// nought are the figures that are 0 in a life without their sign: a draw that
// never falls below ambient has a vacuum of 0, and left out it would bend the
// sample.
var nought = []string{"shelf.vacuum.max", "shelf.panel.max", "shelf.pressure.max"}

// sampleRow reads the figures and the trace off one life; NaN where there is
// none.
func (s *shelfLife) sampleRow(life *permeation.Life, keys []string, trace *Series) []float64 {
	row := make([]float64, 0, len(keys)+200)
	values := s.values(life)
	for _, k := range keys {
		x := math.NaN()
		for _, v := range values {
			switch {
			case v.key != k:
			case v.why == "":
				x = v.value
			case slices.Contains(nought, k) && strings.HasPrefix(v.why, "does not apply"):
				x = 0
			}
		}
		row = append(row, x)
	}
	if trace == nil {
		return row
	}
	for _, t := range trace.X {
		x := math.NaN()
		if p, err := life.At(t); err == nil {
			x = p.Carbonation
		}
		row = append(row, x)
	}
	return row
}

// band sets the band of one figure from its column of the sample.
func (s *shelfLife) band(f *figure.Figure, d *draw, out sample.Outcome, column int) {
	bandOf(f, out, column, func(i int) (string, string, string) {
		key, label, basis := d.input(i)
		return s.path(key), label, basis
	})
}

// bandOf sets the band of a figure from a column of a sample; input returns
// path, label and basis of an input.
func bandOf(f *figure.Figure, out sample.Outcome, column int, input func(i int) (path, label, basis string)) {
	var z [][]float64
	var y []float64
	for i, row := range out.Y {
		if !math.IsNaN(row[column]) {
			z, y = append(z, out.Z[i]), append(y, row[column])
		}
	}
	if len(y) < shelfSamples*9/10 {
		f.Origin.Warnings = append(append([]string{}, f.Origin.Warnings...), incomplete+"its inputs")
	}
	lo, _, hi, err := sample.Band(y, 0.95)
	if err != nil {
		return
	}
	// The sample takes coarser steps; the band goes round the finer value.
	f.Lo, f.Hi = math.Min(lo, f.Value), math.Max(hi, f.Value)
	f.Effects, f.Banding = []figure.Effect{}, sampledBand
	ranked, _, err := sample.Contributions(z, y)
	if err != nil {
		return
	}
	for _, c := range ranked {
		if c.Share < 0.002 {
			continue
		}
		move := two95 * c.Slope
		path, label, basis := input(c.Input)
		f.Effects = append(f.Effects, figure.Effect{Path: path, Label: label, Low: -move, High: move, Basis: basis})
	}
}

// trace returns the first curve of a plot of this stage; nil where it has none.
func (s *shelfLife) trace(key string) *Series {
	for i := range s.pass.plots {
		if s.pass.plots[i].Key == key && len(s.pass.plots[i].Series) > 0 {
			return &s.pass.plots[i].Series[0]
		}
	}
	return nil
}

// bandOfTrace puts the 95 % band of every time on a curve from the columns of
// the sample that begin at from.
func bandOfTrace(c *Series, out sample.Outcome, from int) {
	if c == nil {
		return
	}
	lo, hi := make([]float64, len(c.X)), make([]float64, len(c.X))
	for i := range c.X {
		var y []float64
		for _, row := range out.Y {
			if from+i < len(row) && !math.IsNaN(row[from+i]) {
				y = append(y, row[from+i])
			}
		}
		a, _, b, err := sample.Band(y, 0.95)
		if err != nil {
			return
		}
		lo[i], hi[i] = math.Min(a, c.Y[i]), math.Max(b, c.Y[i])
	}
	c.Lo, c.Hi = lo, hi
}

// proportional puts a band on the carbonation of a preview: that of the loss at
// best-before, in proportion to the loss of every time.
func proportional(p Plot, loss figure.Figure) Plot {
	if len(p.Series) == 0 || p.Series[0].Lo != nil || !(loss.Value > 0) || len(p.Series[0].Y) == 0 {
		return p
	}
	p.Series = append([]Series(nil), p.Series...)
	c := &p.Series[0]
	start := c.Y[0]
	for _, y := range c.Y {
		gone := start - y
		a, b := start-gone*loss.Hi/loss.Value, start-gone*loss.Lo/loss.Value
		c.Lo, c.Hi = append(c.Lo, math.Max(0, math.Min(a, b))), append(c.Hi, math.Max(a, b))
	}
	p.Note = strings.TrimSpace(fmt.Sprintf("%s The band is that of the loss at best-before, in proportion; a full check draws it from %d lives.", p.Note, shelfSamples))
	return p
}
