package run

import (
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
func bandSilent(d *design.Design, figures []figure.Figure, blown bool, cache *Cache) {
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
	list := spreadsOf(d, blown)
	moves := moved(d, list, figures, at, cache)
	for k, s := range list {
		ends := moves[k]
		if ends[0] == nil {
			continue
		}
		it, _ := design.Lookup(s.path)
		for i := range figures {
			f := &figures[i]
			a, b := ends[0][i]-f.Value, ends[1][i]-f.Value
			if math.IsNaN(a) || math.IsNaN(b) {
				// One end is outside what can be computed: the other stands for
				// both, and the figure can no longer pass a limit.
				f.Origin.Warnings = append(f.Origin.Warnings, incomplete+it.Section+": "+it.Field.Label)
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
			f.Effects = append(f.Effects, figure.Effect{Path: s.path, Label: it.Section + ": " + it.Field.Label, Low: a, High: b, Basis: s.basis})
		}
	}
	for i := range figures {
		f := &figures[i]
		f.Lo, f.Hi = inside(f.Kind, f.Value, f.Value-math.Sqrt(down[i]), f.Value+math.Sqrt(up[i]))
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

// inside keeps the band of a share v between nothing and all of it; a share
// that is given back is below nothing and keeps its low end.
func inside(k unit.Kind, v, lo, hi float64) (float64, float64) {
	if k == unit.Fraction && lo < 0 && v >= 0 {
		lo = 0
	}
	if k == unit.Fraction && hi > 1 && v <= 1 {
		hi = 1
	}
	return lo, hi
}

// moved returns what every figure becomes when each uncertain number goes to
// both ends of its range; nil where the number is not in the design. NaN marks
// a figure that is not defined there. The runs are independent and share the
// cores.
func moved(d *design.Design, list []spread, figures []figure.Figure, at map[string]int, cache *Cache) [][2][]float64 {
	out := make([][2][]float64, len(list))
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

func (s spread) move(d *design.Design, figures []figure.Figure, at map[string]int, cache *Cache) (ends [2][]float64) {
	v, ok := 0.0, true
	if s.set == nil {
		v, _, ok = d.Number(s.path)
	}
	if !ok {
		return ends
	}
	lo, hi := s.ends(v)
	if s.set == nil {
		lo, hi = clip(s.path, lo), clip(s.path, hi)
	}
	ends[1] = s.at(d, v, hi, figures, at, cache)
	if s.mirror && math.Abs(lo+hi-2*v) <= 1e-9*(hi-lo) && !slices.ContainsFunc(ends[1], math.IsNaN) {
		ends[0] = make([]float64, len(figures))
		for i, f := range figures {
			ends[0][i] = 2*f.Value - ends[1][i]
		}
		return ends
	}
	ends[0] = s.at(d, v, lo, figures, at, cache)
	return ends
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
	quick := collect(evaluate(d, silent, cache))
	bandSilent(d, quick, blown, cache)
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
			f.Lo, f.Hi = inside(f.Kind, f.Value, q.Lo*k, q.Hi*k)
			f.Effects = make([]figure.Effect, len(q.Effects))
			for j, e := range q.Effects {
				e.Low, e.High = e.Low*k, e.High*k
				f.Effects[j] = e
			}
		}
		f.Banding = lent
	}
}
