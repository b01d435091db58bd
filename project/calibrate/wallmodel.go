package calibrate

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"

	"costrel/project/design"
	"costrel/project/run"
	"costrel/unit"
)

// wallModel computes the measured numbers from a design.
type wallModel struct {
	ctx      context.Context
	base     *design.Design
	data     WallData
	cache    *run.Cache
	progress func(int)
	runs     int

	quick    bool      // coarse blows,
	offset   []float64 // with what they were off where the search began
	n        int       // residuals
	sections int       // of them section weights
	labels   []string
	measured []float64
	sd       []float64
	last     []float64 // as last computed
	wall     *run.Wall
	shape    *run.Shape // of the bottle as last computed
	planes   []float64  // at which it is cut [m]
	mass     float64    // of the preform with finish [kg]
	failed   error      // the trial blow that failed last, nil when none did
}

func newWallModel(ctx context.Context, d *design.Design, data WallData, progress func(int)) (*wallModel, error) {
	m := &wallModel{ctx: ctx, base: d, data: data, cache: run.NewCache(64), progress: progress}
	var faults []error
	add := func(label string, v, sd float64) {
		m.labels, m.measured, m.sd = append(m.labels, label), append(m.measured, v), append(m.sd, sd)
	}
	for _, s := range []struct {
		label string
		r     Reading
	}{{"base section", data.Base}, {"panel section", data.Panel}, {"shoulder section with finish", data.Shoulder}} {
		if s.r.Mean == 0 {
			continue
		}
		if !(s.r.Mean > 0 && s.r.Mean < 1) {
			faults = append(faults, fmt.Errorf("calibrate: %s: a mean of %.4g g is outside 0..1000 g: correct the column or its unit", s.label, s.r.Mean*1e3))
			continue
		}
		n := math.Max(1, float64(s.r.N))
		add(s.label, s.r.Mean, math.Hypot(s.r.SD/math.Sqrt(n), sectionScatter))
	}
	m.sections = len(m.labels)
	for i, l := range data.Levels {
		if !(l.Wall > 0 && l.Wall < 0.02) || math.IsNaN(l.Z) {
			faults = append(faults, fmt.Errorf("calibrate: level %d: a wall of ‹%.4g mm› at ‹%.4g mm› is outside ‹0..20 mm›: correct the columns or their units", i+1, l.Wall*1e3, l.Z*1e3))
			continue
		}
		sd := l.SD
		if sd == 0 {
			sd = 0.04 * l.Wall
		}
		add(fmt.Sprintf("wall at ‹%.0f mm›", l.Z*1e3), l.Wall, math.Hypot(sd, wallScatter*l.Wall))
	}
	if len(faults) > 0 {
		return nil, errors.Join(faults...)
	}
	m.n = len(m.labels)
	if m.n == 0 {
		return nil, errors.New("calibrate: no section weight and no wall reading")
	}
	return m, nil
}

// offsets takes what coarse blows are off whole ones at the design as it stands.
func (m *wallModel) offsets() error {
	r := make([]float64, m.n)
	if err := m.residual(m.base, r); err != nil {
		return err
	}
	whole := m.last
	m.offset, m.quick = make([]float64, m.n), true
	err := m.residual(m.base, r)
	m.quick = false
	if err != nil {
		return err
	}
	for i := range m.offset {
		m.offset[i] = whole[i] - m.last[i]
	}
	return nil
}

// seen returns the knobs that the data see: turned alone by a tenth of its
// range, one must move the residuals so far that they would fix it within
// openShare of the range. The others are entered in held.
func (m *wallModel) seen(knobs []Knob, held map[string]string) ([]Knob, error) {
	var out []Knob
	low, high := make([]float64, m.n), make([]float64, m.n)
	for _, k := range knobs {
		v, _, ok := m.base.Number(k.Path)
		if !ok {
			return nil, fmt.Errorf("calibrate: the design has no number at %s", k.Path)
		}
		from, to := k.to(k.Low), k.to(k.High)
		x := math.Min(math.Max(k.to(v), from), to)
		a, b := math.Max(x-0.05*(to-from), from), math.Min(x+0.05*(to-from), to)
		one := []Knob{k}
		if err := errors.Join(m.trial(one, []float64{a}, low), m.trial(one, []float64{b}, high)); err != nil {
			if m.ctx.Err() != nil || m.failed == nil {
				return nil, err
			}
			held[k.Path] = "left as it was, because a trial blow failed at " + m.failed.Error()
			m.failed = nil
			continue
		}
		change := 0.0
		for i := range low {
			change += (high[i] - low[i]) * (high[i] - low[i])
		}
		if math.Sqrt(change)*openShare*(to-from) < b-a {
			held[k.Path] = "turning it hardly changes what was measured"
			continue
		}
		out = append(out, k)
	}
	return out, nil
}

// trial is the residual with the knobs turned; a blow that fails is noted with
// where they stood.
func (m *wallModel) trial(knobs []Knob, x, r []float64) error {
	err := m.residual(m.design(knobs, x), r)
	if err == nil || m.ctx.Err() != nil {
		return err
	}
	var at []string
	for i, k := range knobs {
		at = append(at, fmt.Sprintf("%s = %.4g", k.Path, k.from(x[i])))
	}
	m.failed = fmt.Errorf("%s (SI): %w", strings.Join(at, ", "), err)
	return err
}

// design returns the design with the knobs turned.
func (m *wallModel) design(knobs []Knob, x []float64) *design.Design {
	d := m.base.Clone()
	for i, k := range knobs {
		d.SetNumber(k.Path, k.from(x[i]))
	}
	// Inside and outside of the card move with its mean.
	shift := d.Oven.Mean - m.base.Oven.Mean
	d.Oven.Inside += shift
	d.Oven.Outside += shift
	return d
}

func (m *wallModel) residual(d *design.Design, r []float64) error {
	var w *run.Wall
	var cut *run.Sections
	var err error
	if m.quick {
		w, cut, err = run.QuickWall(m.ctx, d, m.wall, m.shape)
	} else {
		w, cut, m.shape, err = run.BlownWall(m.ctx, d, m.cache)
	}
	if err != nil {
		return err
	}
	m.runs++
	if m.progress != nil {
		m.progress(m.runs)
	}
	if !m.quick {
		m.wall, m.planes, m.mass = w, cut.Planes, 0
		for _, z := range cut.Zones {
			m.mass += z.Grams * 1e-3
		}
	}
	values := make([]float64, 0, m.n)
	weights := map[string]float64{}
	for _, z := range cut.Zones {
		weights[z.Name] = z.Grams * 1e-3
	}
	for _, label := range m.labels[:m.sections] {
		switch label {
		case "base section":
			values = append(values, weights["base"])
		case "panel section":
			values = append(values, weights["panel"])
		default:
			values = append(values, weights["shoulder"])
		}
	}
	for _, l := range m.data.Levels {
		values = append(values, w.RealAt(m.shape.Bottle.CutS(l.Z)))
	}
	if m.quick {
		for i := range values {
			values[i] += m.offset[i]
		}
	}
	for i := range values {
		r[i] = (values[i] - m.measured[i]) / m.sd[i]
	}
	m.last = values
	return nil
}

// Shares of the mass of the bottle by which the sum of its sections may be off:
// beyond the first it is told, beyond the second refused. Chosen for this project.
const sumTold, sumMost = 0.01, 0.05

// sameBottle holds the data against the blow as last computed: weights of another
// bottle, or readings beside it, would be fitted to nonsense.
func (m *wallModel) sameBottle() (notes []string, err error) {
	ledge := m.shape.Bottle.LedgeZ()
	var faults []error
	for _, l := range m.data.Levels {
		if !(l.Z >= 0 && l.Z <= ledge) {
			faults = append(faults, fmt.Errorf("calibrate: a wall reading at ‹%.4g mm› is beside the bottle, ‹0..%.4g mm› from the standing plane to the ledge: correct its height or the design", l.Z*1e3, ledge*1e3))
		}
	}
	if m.sections == 3 {
		theirs, ours := 0.0, 0.0
		for i := range 3 {
			theirs, ours = theirs+m.measured[i], ours+m.last[i]
		}
		off := math.Abs(theirs/ours - 1)
		said := fmt.Sprintf("the sections weigh %s in sum, the bottle of the design %s", unit.Format(unit.Mass, theirs, "g", 4), unit.Format(unit.Mass, ours, "g", 4))
		switch {
		case off > sumMost:
			faults = append(faults, fmt.Errorf("calibrate: %s, more than %.0f %% apart: weights of another bottle; correct the table, or preform and finish of the design", said, 100*sumMost))
		case off > sumTold:
			notes = append(notes, said+": no fit takes that away; set preform and finish to the weight first")
		}
	}
	return notes, errors.Join(faults...)
}
