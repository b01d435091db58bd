package run

import (
	"math"
	"runtime"
	"sort"
	"strings"
	"sync"

	"costrel/figure"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// spread is one uncertain number of the design: how far it may lie from what
// is written, at the ends of its 95 % range.
type spread struct {
	path  string
	by    float64 // half width: absolute SI, or a factor (1+by) when rel, or e^±by when log
	rel   bool
	log   bool
	basis string
	blown bool // only where the wall was blown
	when  func(d *design.Design) bool
}

// spreads is the list of uncertain numbers. All are habits of the trade or
// choices of this project; a calibrated design narrows them.
var spreads = []spread{
	{path: "preform.wall", by: 0.04e-3, basis: "injection tolerance ± 0.04 mm, common practice"},
	{path: "preform.body_length", by: 0.2e-3, basis: "injection tolerance ± 0.2 mm, common practice"},
	{path: "preform.inner_diameter", by: 0.05e-3, basis: "injection tolerance ± 0.05 mm, common practice"},
	{path: "finish.mass", by: 0.03e-3, basis: "neck mass ± 0.03 g, common practice"},
	{path: "resin.density_wall", by: 5, basis: "wall density ± 5 kg/m³ (crystallinity ± 4 points), common practice"},
	{path: "bottle.wall", by: 0.03e-3, basis: "nominal wall ± 0.03 mm, common practice"},
	{path: "bottle.panel_diameter", by: 0.3e-3, basis: "shrinkage of the blown diameter ± 0.3 mm, common practice"},
	{path: "preform.section_targets.panel", by: 0.4e-3, basis: "section weight ± 0.4 g, common practice", when: hasTargets},
	{path: "preform.section_targets.base", by: 0.5e-3, basis: "section weight ± 0.5 g, common practice", when: hasTargets},
	{path: "brief.nominal", by: 0.005, rel: true, basis: "fill volume ± 0.5 %, chosen for this project"},
	{path: "drink.nitrogen", by: 0.3, rel: true, basis: "nitrogen kept at closing ± 30 %, from memory"},
	{path: "drink.nitrogen_dissolved", by: 0.5, rel: true, basis: "dissolved nitrogen ± 50 %, chosen for this project", when: still},
	{path: "drink.carbonation", by: 0.2, basis: "carbonation ± 0.1 vol at the filler, common practice", when: carbonated},
	{path: "drink.fill_temperature", by: 2, basis: "fill temperature ± 2 K, common practice"},
	{path: "drink.headspace_air", by: 0.2, basis: "air left in the headspace ± 20 points, chosen for this project"},
	{path: "climate.store", by: 2, basis: "mean store temperature ± 2 K, chosen for this project"},
	{path: "climate.hot", by: 2, basis: "hot lane ± 2 K, chosen for this project"},
	{path: "shelf.barrier_factor", by: 0.392, log: true, basis: "barrier of the wall, lognormal with σ = 0.2, chosen for this project"},
	{path: "closure.co2", by: 0.47, log: true, basis: "closure conductance times or divided by 1.6, chosen for this project"},
	{path: "hotfill.shrinkage", by: 0.002, basis: "shrinkage ± 0.2 points, common practice", when: hotFilled},
	{path: "hotfill.panel_compliance", by: 0.15, rel: true, basis: "panel compliance ± 15 %, estimate until computed or measured", when: hotFilled},
	{path: "hotfill.headspace_temperature", by: 4, basis: "headspace gas ± 4 K, chosen for this project", when: hotFilled},
	{path: "hotfill.hold_time", by: 0.2, rel: true, basis: "hold ± 20 %, chosen for this project", when: hotFilled},
	{path: "hotfill.cooling_time", by: 0.3, rel: true, basis: "time constant of the cooling ± 30 %, chosen for this project", when: hotFilled},
	{path: "blow.wall_factor", by: 0.15, rel: true, basis: "section weights by the rule of thumb ± 15 %, chosen for this project", when: noTargets},
	{path: "blow.wall_factor", by: 0.10, rel: true, basis: "accuracy of a computed wall ± 10 % before calibration, typical in print, from memory", blown: true},
	{path: "blow.high_blow", by: 0.5e5, basis: "regulator ± 0.5 bar, common practice"},
	{path: "blow.dead_volume", by: 0.15, rel: true, basis: "dead volume ± 15 %, common practice"},
	{path: "blow.air_recovery", by: 0.05, basis: "recovery ± 5 points, common practice"},
	{path: "plant.air_energy", by: 0.12, rel: true, basis: "compressor 0.20 to 0.25 kWh/Nm³, from memory"},
	{path: "oven.mean_temperature", by: 3, basis: "preform temperature ± 3 K, common practice"},
	{path: "oven.energy", by: 0.3, rel: true, basis: "oven 0.10 to 0.25 kWh/kg, from memory"},
	{path: "plant.resin_price", by: 0.15, rel: true, basis: "resin price ± 15 %, chosen for this project"},
	{path: "plant.preform_making", by: 0.2, rel: true, basis: "± 20 %, chosen for this project"},
	{path: "plant.blowing", by: 0.2, rel: true, basis: "± 20 %, chosen for this project"},
	{path: "plant.virgin_emission", by: 0.15, rel: true, basis: "one study of one producer, ± 15 % chosen for this project"},
}

func noTargets(d *design.Design) bool { return d.Preform.Targets == nil }

func still(d *design.Design) bool { return !carbonated(d) }

func hasTargets(d *design.Design) bool { return d.Preform.Targets != nil }

func carbonated(d *design.Design) bool {
	return d.Drink.Carbonation != nil && *d.Drink.Carbonation > 0
}

// ends returns the two ends of the range of a number.
func (s spread) ends(v float64) (lo, hi float64) {
	switch {
	case s.log:
		return v * math.Exp(-s.by), v * math.Exp(s.by)
	case s.rel:
		return v * (1 - s.by), v * (1 + s.by)
	}
	return v - s.by, v + s.by
}

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
	}
	moves := moved(d, figures, at, blown, cache)
	for k, s := range spreads {
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
func moved(d *design.Design, figures []figure.Figure, at map[string]int, blown bool, cache *Cache) [][2][]float64 {
	out := make([][2][]float64, len(spreads))
	next := make(chan int)
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), 4) {
		wait.Go(func() {
			for k := range next {
				if blown || !spreads[k].blown {
					out[k] = spreads[k].move(d, figures, at, cache)
				}
			}
		})
	}
	for k := range spreads {
		next <- k
	}
	close(next)
	wait.Wait()
	return out
}

func (s spread) move(d *design.Design, figures []figure.Figure, at map[string]int, cache *Cache) (ends [2][]float64) {
	if s.when != nil && !s.when(d) {
		return ends
	}
	v, _, ok := d.Number(s.path)
	if !ok {
		return ends
	}
	lo, hi := s.ends(v)
	for k, x := range []float64{clip(s.path, lo), clip(s.path, hi)} {
		e := make([]float64, len(figures))
		for i, f := range figures {
			e[i] = math.NaN()
			if x == v {
				e[i] = f.Value
			}
		}
		ends[k] = e
		if x == v {
			continue
		}
		c := d.Clone()
		c.SetNumber(s.path, x)
		for _, stage := range evaluate(c, silent, cache) {
			for _, f := range stage.figures {
				if i, ok := at[f.Key]; ok {
					e[i] = f.Value
				}
			}
		}
	}
	return ends
}

// band gives the figures of a check the relative bands that the same inputs
// make in silent runs: those take coarser steps and the preview of the wall, and
// what an input does to a figure hardly depends on that. Figures that carry a
// band of their own keep it.
func band(d *design.Design, figures []figure.Figure, blown bool, cache *Cache) {
	quick := collect(evaluate(d, silent, cache))
	bandSilent(d, quick, blown, cache)
	byKey := map[string]figure.Figure{}
	for _, f := range quick {
		byKey[f.Key] = f
	}
	for i := range figures {
		f := &figures[i]
		q, ok := byKey[f.Key]
		for _, w := range q.Origin.Warnings {
			if ok && strings.HasPrefix(w, incomplete) {
				f.Origin.Warnings = append(f.Origin.Warnings, w)
			}
		}
		switch {
		case f.Effects != nil || !ok:
			continue
		case q.Value == f.Value:
			f.Lo, f.Hi, f.Effects = q.Lo, q.Hi, q.Effects
		case q.Value == 0 || (q.Value > 0) != (f.Value > 0):
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
	}
}
