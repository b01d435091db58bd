package run

import (
	"fmt"
	"math"
	"runtime"
	"slices"
	"sort"
	"strings"
	"sync"

	"costrel/figure"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// clip keeps a number inside what the design accepts.
func clip(path string, v float64) float64 {
	if it, ok := design.Lookup(path); ok {
		return it.Field.Clip(v)
	}
	return v
}

// bandSilent gives every computed figure its 95 % band: each uncertain number goes
// to both ends of its range with the others held, and the effects add in
// squares, each side for itself.
func bandSilent(d *design.Design, done map[string]*entry, figures []figure.Figure, blown bool, cache *Cache) {
	at := map[string]int{}
	for i, f := range figures {
		at[f.Key] = i
	}
	up := make([]float64, len(figures))
	down := make([]float64, len(figures))
	for i := range figures {
		figures[i].Effects = []figure.Effect{} // looked for, perhaps none found
		figures[i].Banding = oneByOne
	}
	moves := append(moved(d, spreadsOf(d, blown), figures, at, cache), lifeMoves(d, done, figures, at, cache)...)
	for _, m := range moves {
		ends := m.ends
		if ends[0] == nil {
			continue
		}
		for i := range figures {
			f := &figures[i]
			a, b := ends[0][i]-f.Value, ends[1][i]-f.Value
			if math.IsNaN(a) || math.IsNaN(b) {
				// One end is outside what can be computed: the other stands for
				// both, and the figure can no longer pass a limit.
				f.Origin.Warnings = append(f.Origin.Warnings, incomplete+m.label)
				switch {
				case math.IsNaN(a) && math.IsNaN(b):
					continue
				case math.IsNaN(a):
					a = -b
				default:
					b = -a
				}
			}
			if small := 1e-9 * math.Abs(f.Value); math.Abs(a) <= small && math.Abs(b) <= small {
				continue
			}
			hiMove, loMove := max(a, b, 0), min(a, b, 0)
			up[i] += hiMove * hiMove
			down[i] += loMove * loMove
			f.Effects = append(f.Effects, figure.Effect{Path: m.path, Label: m.label, Low: a, High: b, Basis: m.basis})
			if m.clipped != "" {
				f.Origin.Warnings = append(f.Origin.Warnings, m.clipped)
			}
		}
	}
	for i := range figures {
		f := &figures[i]
		inside(f, f.Value-math.Sqrt(down[i]), f.Value+math.Sqrt(up[i]))
	}
	rank(figures)
}

// rank puts the effects of every figure in order, the largest first, and says how
// its band was made where the stage did not. A sampled band is in order of the
// variance already.
func rank(figures []figure.Figure) {
	for i := range figures {
		f := &figures[i]
		if len(f.Effects) == 0 || f.Banding == sampledBand {
			continue
		}
		if f.Banding == "" {
			f.Banding = oneByOne
		}
		f.Effects = slices.Clone(f.Effects) // of a stage that is kept
		sort.SliceStable(f.Effects, func(a, b int) bool { return f.Effects[a].Size() > f.Effects[b].Size() })
	}
}

// How bands are made, in words.
const (
	oneByOne = "each uncertain number alone to both ends of its range, the effects added in squares"
	lent     = oneByOne + ", in a coarse run"
)

// alike is how many times a figure and that of the coarse run may differ for the
// band to go in proportion; beyond, near nothing, it goes by what it is.
const alike = 1.5

// noCoarse marks a figure of which the coarse run behind the bands has none.
const noCoarse = quality.EstimatePrefix + ": the band is not complete: the coarse run behind the bands gives no such figure here, so that nothing tells how far it may be off"

// quickKeys are the figures of the stages that a coarse run has.
func quickKeys() map[string]bool {
	out := map[string]bool{}
	for _, s := range stages {
		for _, k := range s.keys {
			out[k] = !s.full
		}
	}
	return out
}

// incomplete begins the warning of a figure that is not defined over the whole
// range of an input.
const incomplete = quality.EstimatePrefix + ": the band is not complete, because the figure is not defined over the whole range of "

// cutBand begins the remark of a share whose band would pass nothing or all of
// it.
const cutBand = "the band is cut"

// eitherWay are the shares that may be above and below nothing: what wall, grown
// volume, headspace and water hold more or less of than at the reference, and a
// body that grows or shrinks.
var eitherWay = map[string]bool{
	"shelf.loss.sorption": true, "shelf.loss.growth": true, "shelf.loss.headspace": true, "shelf.loss.water": true,
	"growth.diameter": true, "altitude.growth": true,
}

// inside sets the band of a figure. That of a share keeps between nothing and
// all of it, and says so where it is cut; a share that is given back is below
// nothing and keeps its low end.
func inside(f *figure.Figure, lo, hi float64) {
	f.Lo, f.Hi = lo, hi
	if f.Kind != unit.Fraction {
		return
	}
	if !eitherWay[f.Key] && lo < 0 && f.Value >= 0 {
		f.Lo = 0
	}
	if hi > 1 && f.Value <= 1 {
		f.Hi = 1
	}
	if f.Lo == lo && f.Hi == hi {
		return
	}
	shown := func(v float64) string { return unit.Quote(unit.Fraction, v, 3) }
	note(f, fmt.Sprintf("%s at %s to %s, between which this share lies: the effects of the inputs, added in squares, reach from %s to %s", cutBand, shown(f.Lo), shown(f.Hi), shown(lo), shown(hi)))
}

// note adds a remark to a figure that does not have it yet.
func note(f *figure.Figure, w string) {
	if !slices.Contains(f.Origin.Warnings, w) {
		f.Origin.Warnings = append(slices.Clip(f.Origin.Warnings), w)
	}
}

// moved returns what every figure becomes when each uncertain number goes to
// both ends of its range; nil where the number is not in the design. NaN marks
// a figure that is not defined there. The runs are independent and share the
// cores.
func moved(d *design.Design, list []spread, figures []figure.Figure, at map[string]int, cache *Cache) []endsOf {
	out := make([]endsOf, len(list))
	next := make(chan int)
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), 4) {
		wait.Go(func() {
			for k := range next {
				out[k] = list[k].move(d, figures, at, cache)
			}
		})
	}
	for k := range list {
		next <- k
	}
	close(next)
	wait.Wait()
	return out
}

func (s spread) move(d *design.Design, figures []figure.Figure, at map[string]int, cache *Cache) endsOf {
	it, _ := design.Lookup(s.path)
	out := endsOf{path: s.path, label: it.Section + ": " + it.Field.Label, basis: s.basis}
	v, ok := 0.0, true
	if s.set == nil {
		v, _, ok = d.Number(s.path)
	}
	if !ok {
		return out
	}
	want := [2]float64{}
	want[0], want[1] = s.ends(v)
	got, cut := want, [2]bool{}
	if s.set == nil {
		for k, x := range want {
			got[k] = clip(s.path, x)
			cut[k] = short(it.Field.Kind, v, x, got[k])
		}
	}
	turned := func(k int, in func(v, other float64) float64) {
		out.ends[k] = make([]float64, len(figures))
		for i, f := range figures {
			out.ends[k][i] = in(f.Value, out.ends[1-k][i])
		}
	}
	if k := slices.Index(cut[:], true); k >= 0 && !cut[1-k] {
		out.clipped = fmt.Sprintf("%s: the range of %s (%s) passes %s, the end of what is accepted: its other end stands for that side, in proportion",
			clippedBand, out.label, s.basis, [2]string{it.Field.Min, it.Field.Max}[k])
		out.ends[1-k] = s.at(d, v, got[1-k], figures, at, cache)
		turned(k, inProportion)
		return out
	}
	out.ends[1] = s.at(d, v, got[1], figures, at, cache)
	if s.mirror && math.Abs(got[0]+got[1]-2*v) <= 1e-9*(got[1]-got[0]) && !slices.ContainsFunc(out.ends[1], math.IsNaN) {
		turned(0, func(v, other float64) float64 { return 2*v - other })
		return out
	}
	out.ends[0] = s.at(d, v, got[0], figures, at, cache)
	return out
}

// inProportion returns what stands as far from v on the other side: in the same
// ratio where that is near 1, else by the same difference.
func inProportion(v, other float64) float64 {
	if q := v / other; q > 0.5 && q < 2 {
		return v * q
	}
	return 2*v - other
}

// clippedBand begins the remark of a figure one side of whose band stands for
// the other.
const clippedBand = "one side of the band is carried over"

// short tells whether an end x of the range of v was cut to got for no reason
// of nature: nothing, and all of a share, are such.
func short(k unit.Kind, v, x, got float64) bool {
	return got != 0 && !(k == unit.Fraction && got == 1) && math.Abs(x-got) > 1e-6*math.Abs(x-v)
}

// at returns the figures of the design with the number, which is v, at x; NaN
// where one is not defined there.
func (s spread) at(d *design.Design, v, x float64, figures []figure.Figure, at map[string]int, cache *Cache) []float64 {
	out := make([]float64, len(figures))
	for i, f := range figures {
		out[i] = math.NaN()
		if x == v {
			out[i] = f.Value
		}
	}
	if x == v {
		return out
	}
	c := d.Clone()
	if s.set != nil {
		s.set(c, x)
	} else {
		c.SetNumber(s.path, x)
	}
	for _, stage := range evaluate(c, silent, cache) {
		for _, f := range stage.figures {
			if i, ok := at[f.Key]; ok {
				out[i] = f.Value
			}
		}
	}
	return out
}

// ownBesides are the figures whose own band the silent one comes on top of: those
// of the blown wall, and the rules of moulding.
var ownBesides = map[string]bool{
	"section.shoulder.mass": true, "section.panel.mass": true, "section.base.mass": true, "wall.min": true, "wall.panel.mean": true,
	"preform.ratio.planar": true, "preform.ratio.axial": true,
	"inject.cycle": true, "inject.fill.time": true, "inject.clamp": true, "inject.acetaldehyde": true, "inject.iv": true,
}

// besides adds to a figure with a band of its own the effects of the numbers that
// it does not count, as the silent figure q has them; section targets make a
// preview and no blown wall.
func besides(f *figure.Figure, q figure.Figure) {
	k := 1.0
	if q.Value != 0 {
		k = f.Value / q.Value
	}
	for _, e := range q.Effects {
		if strings.HasPrefix(e.Path, "preform.section_targets.") || slices.ContainsFunc(f.Effects, func(o figure.Effect) bool { return o.Path == e.Path }) {
			continue
		}
		e.Low, e.High = e.Low*k, e.High*k
		f.Effects = append(f.Effects, e)
	}
	lay(f)
}

// band gives the figures of a check the relative bands that the same inputs
// make in silent runs: those take coarser steps and the preview of the wall, and
// what an input does to a figure hardly depends on that. Figures that carry a
// band of their own keep it.
func band(d *design.Design, figures []figure.Figure, blown bool, cache *Cache) {
	lend(figures, banded(d, blown, cache))
}

// banded returns the figures of a silent run with their bands.
func banded(d *design.Design, blown bool, cache *Cache) []figure.Figure {
	done := evaluate(d, silent, cache)
	quick := collect(done)
	bandSilent(d, done, quick, blown, cache)
	return quick
}

// lend gives figures the relative bands of the quick ones.
func lend(figures, quick []figure.Figure) {
	byKey := map[string]figure.Figure{}
	for _, f := range quick {
		byKey[f.Key] = f
	}
	quickly := quickKeys()
	for i := range figures {
		f := &figures[i]
		q, ok := byKey[f.Key]
		for _, w := range q.Origin.Warnings {
			if ok && strings.HasPrefix(w, incomplete) {
				f.Origin.Warnings = append(f.Origin.Warnings, w)
			}
		}
		switch {
		case ok && f.Effects != nil && ownBesides[f.Key]:
			besides(f, q)
			continue
		case f.Effects != nil:
			continue
		case !ok:
			if quickly[f.Key] {
				f.Origin.Warnings = append(f.Origin.Warnings, noCoarse)
			}
			continue
		case q.Value == f.Value:
			f.Lo, f.Hi, f.Effects = q.Lo, q.Hi, q.Effects
		case !(f.Value/q.Value > 1/alike && f.Value/q.Value < alike): // other signs and 0 too
			f.Lo, f.Hi, f.Effects = f.Value+(q.Lo-q.Value), f.Value+(q.Hi-q.Value), q.Effects
		default:
			k := f.Value / q.Value
			inside(f, q.Lo*k, q.Hi*k)
			f.Effects = make([]figure.Effect, len(q.Effects))
			for j, e := range q.Effects {
				e.Low, e.High = e.Low*k, e.High*k
				f.Effects[j] = e
			}
		}
		f.Banding = lent
		for _, w := range q.Origin.Warnings {
			if strings.HasPrefix(w, clippedBand) || strings.HasPrefix(w, cutBand) {
				note(f, w)
			}
		}
	}
}
