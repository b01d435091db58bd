package permeation

import (
	"fmt"
	"math"
	"sort"

	"costrel/num/root"
	"costrel/unit"
)

// Reference is what a loss is counted from. It matters as much as the
// material: filling 4 volumes into a gas space without pressure takes about
// 6 % at once.
type Reference string

const (
	// Sealed is the closed bottle in balance, grown at once: time 0+.
	Sealed Reference = "sealed"
	// FillerSet is what the filler set in the liquid before closing.
	FillerSet Reference = "filler"
	// FirstDay is the reading after 24 hours.
	FirstDay Reference = "24 h"
)

// Life is the pack along its lane. Read it with [Life.At]; it is not safe to
// share between goroutines.
type Life struct {
	Steps, Refused int
	// MaxPressure is the highest pressure met, at MaxTime [s].
	MaxPressure unit.GaugePressure
	MaxTime     float64

	m          *model
	end        float64
	read       unit.Temperature
	steps      []step
	values     []float64 // of the steps: state without cells and wall holdings, at start and end, then rates
	width      int
	iterations int
	scratch    []float64
	ref        map[Reference]*mark
	first      []float64
	fault      error // of a warm hour
	full       bool
	fullTime   float64 // of the first state without a gas space [s]
}

// step is one accepted step; its numbers stand in Life.values.
type step struct {
	t, h   float64
	at     int
	p0, p1 [gases]float64
	// Gauge pressure at start and end, and in the warmest and the coldest hour
	// [Pa] with their times: of a calmed day at the end, of a cycle that is
	// followed where it turns in the step.
	g0, g1, warm, cool float64
	warmAt, coolAt     float64
}

// mark is a state to count from.
type mark struct {
	t                      float64
	dissolved, water       float64
	passed, wall, closed   float64
	density, space, bottle float64 // CO2 in the gas space [mol/m³]; [m³]
	volume                 float64 // of the liquid [m³]
}

func newLife(m *model, y []float64, until float64) (*Life, error) {
	l := &Life{m: m, end: until, read: m.pack.Read, width: m.small + int(gases), MaxPressure: unit.GaugePressure(math.Inf(-1))}
	if l.read == 0 {
		l.read = m.t
	}
	if err := CheckTemperature(l.read); err != nil {
		return nil, fmt.Errorf("%w: temperature of reading", err)
	}
	l.scratch = make([]float64, l.width)
	l.first = make([]float64, l.width)
	l.gather(l.first, y)
	return l, nil
}

// gather copies the state without cells and adds up what the walls hold.
func (l *Life) gather(dst, y []float64) {
	m := l.m
	copy(dst, y[:m.small])
	wall := dst[m.small:]
	clear(wall[:gases])
	for i := range m.slabs {
		s := &m.slabs[i]
		var sum float64
		for _, c := range y[s.at : s.at+s.cells] {
			sum += c
		}
		wall[s.gas] += sum * s.dx * s.area
	}
}

func (l *Life) record(t, h float64, y0, y1, k0, k1 []float64, b0, b1 *balance) {
	l.Steps++
	at := len(l.values)
	for range 4 {
		l.values = append(l.values, l.scratch...)
	}
	w := l.width
	l.gather(l.values[at:at+w], y0)
	l.gather(l.values[at+w:at+2*w], y1)
	l.gather(l.values[at+2*w:at+3*w], k0)
	l.gather(l.values[at+3*w:at+4*w], k1)
	l.fills(t, b0)
	l.fills(t+h, b1)
	s := step{t: t, h: h, at: at}
	s.p0, s.p1 = b0.p, b1.p
	ambient := l.m.in.ambient
	s.g0, s.g1 = b0.total-ambient, b1.total-ambient
	s.warm, s.cool, s.warmAt, s.coolAt = l.hour(t+h, l.m.warm, y1, b1), l.hour(t+h, l.m.cool, y1, b1), t+h, t+h
	l.steps = append(l.steps, s)
	l.turn()
	s = l.steps[len(l.steps)-1]
	for _, x := range [...]struct{ p, at float64 }{{s.g0, t}, {s.g1, t + h}, {s.warm, s.warmAt}} {
		if g := unit.GaugePressure(x.p); g > l.MaxPressure {
			l.MaxPressure, l.MaxTime = g, x.at
		}
	}
}

// fills keeps the first time at which the liquid fills the bottle.
func (l *Life) fills(t float64, b *balance) {
	if !l.full && b.space == 0 {
		l.full, l.fullTime = true, t
	}
}

// Full returns the first time up to until [s] at which the liquid fills the
// bottle, warm and cold hours included; ok is false where a gas space stays.
func (l *Life) Full(until float64) (t float64, ok bool) {
	return l.fullTime, l.full && l.fullTime <= until
}

// state writes the state at t to scratch, by the cubic through values and
// rates at both ends of the step.
func (l *Life) state(t float64) (*step, []float64, error) {
	if !(t >= 0 && t <= l.end) {
		return nil, nil, fmt.Errorf("permeation: time %.4g d outside 0..%.4g d, the run", t/day, l.end/day)
	}
	i := sort.Search(len(l.steps), func(i int) bool { return l.steps[i].t+l.steps[i].h >= t })
	i = min(i, len(l.steps)-1)
	s := &l.steps[i]
	w := l.width
	v := l.values[s.at : s.at+4*w]
	x := (t - s.t) / s.h
	x = math.Min(math.Max(x, 0), 1)
	h00, h10 := (1+2*x)*(1-x)*(1-x), x*(1-x)*(1-x)*s.h
	h01, h11 := x*x*(3-2*x), x*x*(x-1)*s.h
	for j := range w {
		l.scratch[j] = h00*v[j] + h01*v[w+j] + h10*v[2*w+j] + h11*v[3*w+j]
	}
	return s, l.scratch, nil
}

// settle brings the pack with the state y to a temperature and returns its
// balance.
func (l *Life) settle(y []float64, t unit.Temperature, ambient float64, p [gases]float64) (inside, balance, error) {
	m := l.m
	var e inside
	var b balance
	e.thermal(m, t)
	e.ambient = ambient
	e.fill(m, t, y[atWater])
	strain := 1.0
	for i := range m.kelvin {
		strain += y[atCreep+i]
	}
	e.base, e.slope = m.pack.Volume*strain, m.pack.Volume*m.pack.Growth.Elastic
	_, err := e.solve([gases]float64{y[0], y[1], y[2]}, p, &b)
	return e, b, err
}

// mark returns what a loss is counted with, read at the temperature of reading.
func (l *Life) mark(t float64) (mark, error) {
	s, y, err := l.state(t)
	if err != nil {
		return mark{}, err
	}
	e, b, err := l.settle(y, l.read, l.m.in.ambient, s.p1)
	if err != nil {
		return mark{}, fault(t, fmt.Errorf("read at ‹%.4g °C›: %w", l.read.Celsius(), err))
	}
	m := l.m
	return mark{
		t: t, dissolved: b.dissolved, water: y[atWater],
		passed: y[m.acc+passed], wall: y[m.small], closed: y[m.acc+closed],
		density: b.density, space: b.space, bottle: b.bottle,
		volume: e.liquid + e.swell*b.dissolved,
	}, nil
}

// refer works out the states that a loss can be counted from.
func (l *Life) refer() error {
	if l.fault != nil {
		return l.fault
	}
	l.ref = map[Reference]*mark{}
	r, err := l.mark(0)
	if err != nil {
		return err
	}
	l.ref[Sealed] = &r
	if l.end >= day {
		d, err := l.mark(day)
		if err != nil {
			return err
		}
		l.ref[FirstDay] = &d
	}
	if f := l.m.pack.Filler; f != nil {
		q := r
		q.dissolved, q.space, q.bottle = f.Dissolved, f.Headspace, l.m.pack.Volume
		q.density = f.Gas / f.Headspace
		q.passed, q.wall, q.closed = 0, l.first[l.m.small], 0
		l.ref[FillerSet] = &q
	}
	return nil
}

// Loss is the lost share of the carbonation and where it went, each a share of
// the carbonation counted from. The parts add up to Total:
//
//	1 - (n/m_w)/(n0/m_w0) = [wall + sorption + closure + growth + headspace] + water
//
// growth is the gas that stands in the volume the bottle has grown by,
// headspace the other change of the gas space, water the concentration by its
// loss: negative.
type Loss struct {
	From                                              Reference
	Total                                             float64
	Wall, Sorption, Closure, Growth, Headspace, Water float64
	// What the parts are made of: carbon dioxide dissolved at the reference and
	// now [mol], what stands in a volume of gas, mean of both [mol/m³], the
	// volume grown between them [m³], the water then and now [kg].
	Counted, Dissolved, Density, Grown, WaterThen, WaterNow float64
}

// Loss returns the loss at t [s]. The carbonation is read at the temperature of
// reading, so a warm day is not counted as a loss. A still drink, a pack
// without a filler's set-point asked for it and a run shorter than a day asked
// for its 24 h are errors.
func (l *Life) Loss(t float64, from Reference) (Loss, error) {
	r, ok := l.ref[from]
	if !ok {
		switch from {
		case FillerSet:
			return Loss{}, fmt.Errorf("permeation: loss: the pack gives no set-point of the filler")
		case FirstDay:
			return Loss{}, fmt.Errorf("permeation: loss: the run ends after %.4g h, before the reading at 24 h", l.end/3600)
		}
		return Loss{}, fmt.Errorf("permeation: loss: counted from %q, want %q, %q or %q", from, Sealed, FillerSet, FirstDay)
	}
	if !(r.dissolved > 0) {
		return Loss{}, fmt.Errorf("permeation: loss: the drink holds no carbon dioxide")
	}
	n, err := l.mark(t)
	if err != nil {
		return Loss{}, err
	}
	out := Loss{
		From:     from,
		Total:    1 - n.dissolved/r.dissolved*r.water/n.water,
		Wall:     (n.passed - r.passed) / r.dissolved,
		Sorption: (n.wall - r.wall) / r.dissolved,
		Closure:  (n.closed - r.closed) / r.dissolved,
		Growth:   (n.density + r.density) / 2 * (n.bottle - r.bottle) / r.dissolved,
		Counted:  r.dissolved, Dissolved: n.dissolved, WaterThen: r.water, WaterNow: n.water,
		Density: (n.density + r.density) / 2, Grown: n.bottle - r.bottle,
		Water: n.dissolved / r.dissolved * (1 - r.water/n.water),
	}
	out.Headspace = (n.density*n.space-r.density*r.space)/r.dissolved - out.Growth
	for _, x := range []*float64{&out.Total, &out.Wall, &out.Sorption, &out.Closure, &out.Growth, &out.Headspace, &out.Water} {
		if math.Abs(*x) < 1e-12 { // nothing: rounding of the cubic and of the balance
			*x = 0
		}
	}
	return out, nil
}

// TimeToLoss returns the first time [s] at which the loss reaches the limit; ok
// is false where it does not within the run.
func (l *Life) TimeToLoss(limit float64, from Reference) (t float64, ok bool, err error) {
	if !(limit > 0 && limit < 1) {
		return 0, false, fmt.Errorf("permeation: loss: limit %g outside 0..1", limit)
	}
	return first(func(t float64) (float64, error) {
		x, err := l.Loss(t, from)
		return x.Total - limit, err
	}, l.Times()[1:])
}

// TimeTo returns the first time [s] at which a value of the pack reaches a
// limit from below: the ingress of oxygen, the loss of water. ok is false where
// it does not within the run.
func (l *Life) TimeTo(value func(Point) float64, limit float64) (t float64, ok bool, err error) {
	if math.IsNaN(limit) || math.IsInf(limit, 0) {
		return 0, false, fmt.Errorf("permeation: time to a limit of %g", limit)
	}
	return first(func(t float64) (float64, error) {
		p, err := l.At(t)
		return value(p) - limit, err
	}, l.Times())
}

// first returns the first time [s] at which a function is no longer below zero:
// it is read at 0 and at the rising ends, and the crossing before the first end
// that lies above is placed to 1 s.
func first(over func(t float64) (float64, error), ends []float64) (t float64, ok bool, err error) {
	f := func(t float64) float64 {
		x, e := over(t)
		if e != nil && err == nil {
			err = e
		}
		return x
	}
	low := 0.0
	for _, high := range ends {
		x := f(high)
		if err != nil {
			return 0, false, err
		}
		if x >= 0 {
			if high == low || f(low) >= 0 {
				return low, true, err
			}
			t, e := root.Brent(f, low, high, 1)
			if err == nil {
				err = e
			}
			return t, err == nil, err
		}
		low = high
	}
	return 0, false, nil
}
