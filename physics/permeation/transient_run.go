package permeation

import (
	"errors"
	"fmt"
	"math"

	"costrel/num/stiff"
	"costrel/physics/climate"
)

// Options of a run. The zero value is the usual one.
type Options struct {
	Cells     int     // through every zone; 0 = 12; 1..200
	Tolerance float64 // of the amounts, relative, each step; 0 = 1e-5; 1e-10..1e-2
	Method    string  // "ESDIRK4" (empty) or "TR-BDF2"
	MaxSteps  int     // 0 = 200 000
}

// The defaults of Options.
const (
	DefaultCells     = 12
	DefaultTolerance = 1e-5
	DefaultMaxSteps  = 200000
)

func (o Options) fill() (Options, stiff.Tableau, error) {
	if o.Cells == 0 {
		o.Cells = DefaultCells
	}
	if o.Tolerance == 0 {
		o.Tolerance = DefaultTolerance
	}
	if o.MaxSteps == 0 {
		o.MaxSteps = DefaultMaxSteps
	}
	if o.Cells < 1 || o.Cells > 200 {
		return o, stiff.Tableau{}, fmt.Errorf("permeation: options: %d cells outside 1..200", o.Cells)
	}
	if !(o.Tolerance >= 1e-10 && o.Tolerance <= 1e-2) {
		return o, stiff.Tableau{}, fmt.Errorf("permeation: options: tolerance %g outside 1e-10..1e-2", o.Tolerance)
	}
	switch o.Method {
	case "", "ESDIRK4":
		return o, stiff.ESDIRK4(), nil
	case "TR-BDF2":
		return o, stiff.TRBDF2(), nil
	}
	return o, stiff.Tableau{}, fmt.Errorf("permeation: options: no method %q, want ESDIRK4 or TR-BDF2", o.Method)
}

// Run follows the pack along the lane up to the time until [s]; 0 is the whole
// lane.
//
// Every gas diffuses through every zone ([WallZone]), in at the pressure of the
// gas space and out at that of the air, which also stands in the wall at the
// start; the closure passes its share; drink and gas space stay in balance
// (inside), the bottle grows at once and slowly ([Growth]), water leaves by its
// vapour pressure, the drink and scavengers bind oxygen. Temperature, humidity
// and altitude follow the lane; at its jumps the step starts anew.
//
// Finite volumes with the concentration as the state, the whole system
// implicit by an L-stable method of order 4 with adaptive steps; where days are
// followed, by one of order 2 in even steps, unless a finer tolerance than the
// usual is asked for.
//
// Where the liquid comes to fill the bottle its wall sets the pressure, until
// gas comes in again; [Life.Full] tells it.
//
// Errors: [Pack.Check]; a lane that leaves -10..70 °C or is shorter than
// asked; a bottle that the liquid fills and that does not give room below
// 50 bar, with the time.
func (p Pack) Run(course climate.Course, until float64, o Options) (*Life, error) {
	o, tab, err := o.fill()
	if err != nil {
		return nil, err
	}
	if err := p.Check(); err != nil {
		return nil, err
	}
	end := course.Duration()
	if until == 0 {
		until = end
	}
	if !(until > 0) || until > end {
		return nil, fmt.Errorf("permeation: the lane %q lasts %.4g d, asked for %.4g d", course.Lane().Name, end/day, until/day)
	}
	for _, x := range []climate.Extreme{course.Coldest(), course.Warmest()} {
		if err := CheckTemperature(x.Temperature); err != nil {
			return nil, fmt.Errorf("%w; %s reaches it on day %.4g, day and season included: keep the lane of the filled pack between ‹%.4g and %.4g °C›", err, place(course, x.Time), x.Time/day, LowT.Celsius(), HighT.Celsius())
		}
	}
	m := newModel(p, course, o.Cells, tab)
	breaks := course.Breaks()
	m.stop = breaks[1]
	y, err := m.start()
	if err != nil {
		return nil, err
	}
	life, err := newLife(m, y, until)
	if err != nil {
		return nil, err
	}
	if err := m.integrate(life, y, until, breaks, o); err != nil {
		return nil, err
	}
	if err := life.refer(); err != nil {
		return nil, err
	}
	return life, nil
}

// place names where on its lane a pack is at t.
func place(course climate.Course, t float64) string {
	l := course.Lane()
	st, err := course.At(math.Min(t, course.Duration()-1e-3))
	if err != nil || len(l.Segments) < 2 || l.Segments[st.Segment].Name == "" {
		return fmt.Sprintf("the lane %q", l.Name)
	}
	out := fmt.Sprintf("stretch %d", st.Segment+1)
	if name := l.Segments[st.Segment].Name; name != out {
		return out + " of the lane (" + name + ")"
	}
	return out + " of the lane"
}

// longest returns the longest step in a segment that does not miss its cycles.
func longest(s climate.Segment) float64 {
	h := math.Inf(1)
	if s.Season != (climate.Cycle{}) {
		h = climate.Year / 24
	}
	if s.Daily != (climate.Cycle{}) {
		h = climate.Day / 4
	}
	return h
}

// Days that are followed: even steps of a fifth of a day take the mean of what
// goes up and down with the day exactly, but for its fifth harmonic (below 1e-4
// of the mean for ± 10 K and 50 kJ/mol), which finer uneven steps do not. The
// tolerance leaves the steps alone once the start is over.
const (
	dayParts     = 5
	dayTolerance = 1e-3
)

// choose returns how a segment is stepped: method, tolerance and longest step.
func (m *model) choose(s climate.Segment, tolerance float64) (stiff.Tableau, float64, float64) {
	if s.Daily == (climate.Cycle{}) || tolerance < DefaultTolerance {
		return m.method, tolerance, longest(s)
	}
	return stiff.TRBDF2(), math.Max(tolerance, dayTolerance), climate.Day / dayParts
}

// norm returns the error of a step in units of the tolerance.
func (m *model) norm(k [][]float64, h, tolerance float64) float64 {
	w := m.tab.Error
	one := func(i int) float64 {
		var e float64
		for j := range w {
			e += w[j] * k[j][i]
		}
		return math.Abs(h * e)
	}
	worst := 0.0
	for g := CO2; g < gases; g++ {
		// A gas is measured by what stands inside at 1 bar of it, or all there is.
		scale := math.Max(m.bal.n[g], m.bal.jac[g][g]*1e4)
		worst = math.Max(worst, one(int(g))/scale)
	}
	for i := range m.kelvin {
		worst = math.Max(worst, one(atCreep+i))
	}
	// A cell errs locally where the front passes; what counts is the sum.
	for i := range m.slabs {
		s := &m.slabs[i]
		sum := 0.0
		for j := range s.cells {
			e := one(s.at+j) / s.scale
			sum += e * e
		}
		worst = math.Max(worst, math.Sqrt(sum/float64(s.cells))/slabSlack)
		if s.left >= 0 {
			for j := range s.cells {
				worst = math.Max(worst, one(s.left+j)/slabSlack)
			}
		}
	}
	if m.pack.Cap.Scavenger.Capacity > 0 {
		worst = math.Max(worst, one(atLiner)/slabSlack)
	}
	return worst / tolerance
}

// slabSlack is how much larger the error of the cells of a slab may be than
// that of the amounts inside: the wall holds a few percent of the gas.
const slabSlack = 50

func (m *model) integrate(life *Life, y []float64, until float64, breaks []float64, o Options) error {
	k := make([][]float64, max(len(m.method.A), len(stiff.TRBDF2().A)))
	for i := range k {
		k[i] = make([]float64, m.size)
	}
	a, next := make([]float64, m.size), make([]float64, m.size)
	segments := course(m).Segments
	// The first step after a start and after a jump; a coarse run may begin with
	// a longer one.
	coarse := math.Pow(math.Max(o.Tolerance/DefaultTolerance, 1), 0.6)
	h := 10 * coarse
	t := 0.0
	for span := 0; t < until; span++ {
		m.stop = breaks[span+1]
		stop := math.Min(m.stop, until)
		st, err := m.course.At(t)
		if err != nil {
			return err
		}
		tab, tolerance, most := m.choose(segments[st.Segment], o.Tolerance)
		m.tab = tab
		m.settled, m.slow = math.Sqrt(settledShare*tolerance), math.Max(settled, slowShare*tolerance)
		stages := len(tab.A)
		control := stiff.NewController(tab)
		ahead := newGuess(stages)
		h = math.Min(h, 100*coarse)
		if err := m.explicit(t, y, k[0]); err != nil {
			return err
		}
		low := m.bal
		pressures := m.p
		for t < stop {
			if life.Steps >= o.MaxSteps {
				return fmt.Errorf("permeation: at %.4g d: more than %d steps", t/day, o.MaxSteps)
			}
			h = math.Min(h, most)
			if left := stop - t; h > left*(1-1e-9) {
				h = left
			} else if h > left/2 {
				h = left / 2 // no sliver of a step before the end
			}
			copy(next, y)
			ahead.begin(t, pressures)
			err := error(nil)
			for i := 1; i < stages && err == nil; i++ {
				at := t + tab.C[i]*h
				m.combine(a, y, k, i, h)
				m.p = ahead.put(m, at, a, next, k, h*tab.Gamma)
				if err = m.stage(at, a, next, k[i], h*tab.Gamma); err == nil {
					ahead.add(at, m.p)
				}
			}
			e := math.NaN()
			if err == nil {
				e = m.norm(k[:stages], h, tolerance)
			}
			ok, propose := control.Next(h, e)
			if !ok {
				life.Refused++
				if propose < 1e-3 {
					if err == nil || errors.Is(err, errNewton) {
						err = errors.New("the step shrinks below 1 ms")
					}
					return fault(t, err)
				}
				h = propose
				continue
			}
			life.record(t, h, y, next, k[0], k[stages-1], &low, &m.bal)
			y, next = next, y
			k[0], k[stages-1] = k[stages-1], k[0]
			t += h
			if t > stop*(1-1e-15) {
				t = stop
			}
			low = m.bal
			pressures = m.p
			h = propose
		}
	}
	life.iterations = m.works
	return nil
}

func course(m *model) climate.Lane { return m.course.Lane() }

// combine writes the explicit part of stage i to a.
func (m *model) combine(a, y []float64, k [][]float64, i int, h float64) {
	row := m.tab.A[i]
	copy(a, y)
	for j := range i {
		c := h * row[j]
		if c == 0 {
			continue
		}
		kj := k[j][:len(a)]
		for x := range a {
			a[x] += c * kj[x]
		}
	}
}
