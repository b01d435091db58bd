package shell

import (
	"errors"
	"fmt"
	"math"

	"costrel/unit"
)

// SoftenInput asks at which temperature a pack leaves its limits, say in hot
// water.
type SoftenInput struct {
	Bottle
	Warmth Warmth
	// Pressure inside by temperature [Pa, gauge]; nil for none.
	Pressure func(unit.Temperature) float64
	// Sealed, in place of Pressure, is the closed pack at a temperature: the gauge
	// pressure [Pa] with which it answers the gain of volume of the bottle [m³],
	// and its slope [Pa/m³].
	Sealed   func(unit.Temperature) (func(gain float64) (pressure, slope float64), error)
	From, To unit.Temperature // searched; 0 for the ends of the table
	GaugeZ   float64          // height at which the growth counts [m]; 0 for the largest anywhere
	Growth   float64          // largest diameter growth allowed, elastic and at once; 0 for 0.03
	// Sag of the gate allowed, elastic and at once, over its clearance above the
	// ring: at 1 it touches. 0 leaves it out, as does a base without clearance.
	Sag     float64
	TopLoad float64 // load the empty bottle must carry [N], after the knock-down; 0 leaves it out
	Others  []SoftLimit
}

// SoftLimit is one more limit on the warmed pack, elastic and at once.
type SoftLimit struct {
	Name string
	Of   func(Growth) float64 // rises as the wall softens
	Most float64
}

// SoftenResult is the temperature at which the first limit is passed.
type SoftenResult struct {
	Temperature unit.Temperature
	Limit       string // "growth", "clearance", "no equilibrium", "top load", the name of another; "none" when all hold up to To
	Growth      float64
	Sag         float64 // over the clearance
	TopLoad     float64 // at the temperature [N]; 0 when left out
	Gain        float64 // of volume of the bottle in the last state that held [m³]
	Others      []float64
	Course      []Soft // of the temperatures that held
	Warnings    []string
}

// Soft is the growth at a temperature, and the sag over the clearance.
type Soft struct {
	Temperature unit.Temperature
	Growth, Sag float64
	Others      []float64
}

// At returns the temperature at which the growth first passes a limit below that of
// the search; where the course ends before it, the temperature of the result.
func (r SoftenResult) At(limit float64) unit.Temperature {
	q, _ := r.Grows(limit)
	return q
}

// Grows is At, and whether the growth passes the limit.
func (r SoftenResult) Grows(limit float64) (unit.Temperature, bool) {
	return r.passing(limit, func(s Soft) float64 { return s.Growth })
}

// AtSag is the same for the sag over the clearance.
func (r SoftenResult) AtSag(limit float64) unit.Temperature {
	q, _ := r.passing(limit, func(s Soft) float64 { return s.Sag })
	return q
}

// AtOther is the same for the measure of another limit, by its place in the input.
func (r SoftenResult) AtOther(k int, limit float64) unit.Temperature {
	q, _ := r.Leaves(k, limit)
	return q
}

// Leaves is AtOther, and whether the measure passes the limit, be it that it comes
// back behind.
func (r SoftenResult) Leaves(k int, limit float64) (unit.Temperature, bool) {
	return r.passing(limit, func(s Soft) float64 {
		if k >= len(s.Others) { // no state was found
			return math.Inf(-1)
		}
		return s.Others[k]
	})
}

func (r SoftenResult) passing(limit float64, of func(Soft) float64) (unit.Temperature, bool) {
	course := append(append([]Soft{}, r.Course...), Soft{r.Temperature, r.Growth, r.Sag, r.Others})
	for i, s := range course {
		b := of(s)
		if !(b > limit) {
			continue
		}
		if i == 0 {
			return s.Temperature, true
		}
		a := of(course[i-1])
		return course[i-1].Temperature + unit.Temperature((limit-a)/(b-a))*(s.Temperature-course[i-1].Temperature), true
	}
	return r.Temperature, false
}

// Soften warms the pack until it leaves a limit, to some 0.1 K. The stiffness by temperature is the
// table's, from memory unless the caller has a better one; a wall that shrinks
// back is not part of it.
func Soften(in SoftenInput) (SoftenResult, error) {
	n := len(in.Warmth.At)
	if n < 2 {
		return SoftenResult{}, fmt.Errorf("shell: softening: table of %d temperatures, at least 2", n)
	}
	if in.From == 0 {
		in.From = in.Warmth.At[0]
	}
	if in.To == 0 {
		in.To = in.Warmth.At[n-1]
	}
	if in.Growth == 0 {
		in.Growth = 0.03
	}
	for _, o := range in.Others {
		if o.Of == nil || bad(o.Most) || (in.Pressure == nil && in.Sealed == nil) {
			return SoftenResult{}, fmt.Errorf("shell: softening: limit %q at %g: it needs a measure, a finite limit and a pressure", o.Name, o.Most)
		}
	}
	if !(in.To > in.From) || !(in.Growth > 0) || in.TopLoad < 0 || in.Sag < 0 {
		return SoftenResult{}, fmt.Errorf("shell: softening: from ‹%.1f to %.1f °C›, growth %g, sag %g, top load ‹%g N›", in.From.Celsius(), in.To.Celsius(), in.Growth, in.Sag, in.TopLoad)
	}
	in.Quick, in.Creep = true, nil
	w := warming{in: &in}
	if in.TopLoad > 0 {
		r, err := TopLoad(TopLoadInput{Bottle: in.Bottle, Fill: EmptyVented, Brief: true})
		if err != nil {
			return SoftenResult{}, err
		}
		w.top = r.Design
	}
	if in.Pressure != nil || in.Sealed != nil {
		p, err := in.prepare(1)
		if err != nil {
			return SoftenResult{}, err
		}
		if w.m, err = NewModel(p.mesh, Case{Face: Inner, Hard: p.hard, Supports: p.onRing(false, 0, 0)}); err != nil {
			return SoftenResult{}, err
		}
		w.m.starts = p.starts
		if w.p = p; p.mesh.R[0] <= 1e-9 && p.ring > 0 {
			w.clear = math.Max(0, w.m.clearance(p))
		}
	}
	return w.run()
}

// warming is a pack on its way to a temperature.
type warming struct {
	in  *SoftenInput
	m   *Model // nil without pressure
	p   *prepared
	top float64 // top load at the reference [N]

	clear float64 // of the gate above the ring, unloaded [m]; 0 for none
	gain  float64 // of volume in the last good state [m³]
	way   trail
}

// run goes up in steps, each from the state of the one before.
func (w *warming) run() (SoftenResult, error) {
	const stride, least = 1.0, 0.1 // K
	last, err := w.at(w.in.From, true)
	if err != nil || last.Limit != "none" {
		return last, err
	}
	course := []Soft{{last.Temperature, last.Growth, last.Sag, last.Others}}
	d := unit.Temperature(stride)
	for last.Temperature < w.in.To {
		now, err := w.at(min(last.Temperature+d, w.in.To), false)
		if err != nil {
			return now, err
		}
		switch now.Limit {
		case "none":
			last = now
			course = append(course, Soft{now.Temperature, now.Growth, now.Sag, now.Others})
			continue
		case "no equilibrium":
			if d /= 2; d >= least {
				continue
			}
			now.Temperature, now.Growth, now.Sag, now.Others = last.Temperature, last.Growth, last.Sag, last.Others
		default:
			// Straight between the two last temperatures.
			x := (w.in.Growth - last.Growth) / (now.Growth - last.Growth)
			switch now.Limit {
			case "clearance":
				x = (w.in.Sag - last.Sag) / (now.Sag - last.Sag)
			case "top load":
				x = (last.TopLoad - w.in.TopLoad) / (last.TopLoad - now.TopLoad)
			}
			for k, o := range w.in.Others {
				if o.Name == now.Limit {
					x = (o.Most - last.Others[k]) / (now.Others[k] - last.Others[k])
				}
			}
			mix := func(a, b float64) float64 { return a + x*(b-a) }
			now.Temperature = last.Temperature + unit.Temperature(x)*(now.Temperature-last.Temperature)
			for k, v := range last.Others {
				now.Others[k] = mix(v, now.Others[k])
			}
			now.Growth, now.Sag, now.TopLoad = mix(last.Growth, now.Growth), mix(last.Sag, now.Sag), mix(last.TopLoad, now.TopLoad)
		}
		last = now
		break
	}
	last.Course, last.Gain = course, w.gain
	last.Warnings = append(last.Warnings, "stiffness by temperature from the table of the case; shrinkage of the wall is not part of it")
	return last, nil
}

// at brings the pack to a temperature.
func (w *warming) at(t unit.Temperature, first bool) (SoftenResult, error) {
	soft, _, warn, err := w.in.Warmth.Factors(t)
	r := SoftenResult{Temperature: t, Limit: "none"}
	if err != nil {
		return r, err
	}
	if warn != "" {
		r.Warnings = append(r.Warnings, warn)
	}
	if w.m != nil {
		s, err := w.step(t)
		if err != nil {
			return r, err
		}
		s.soft = soft
		if first {
			err = w.m.reach(s, 4)
			w.way.note(w.m, float64(t))
		} else {
			s.trail, s.along = &w.way, float64(t)
			err = w.m.solve(s)
		}
		if errors.Is(err, ErrNoConvergence) {
			r.Limit = "no equilibrium"
			return r, nil
		}
		if err != nil {
			return r, err
		}
		w.gain = w.m.vol - w.m.volume0
		g := GrowInput{GaugeZ: w.in.GaugeZ}
		q := g.measure(w.m, w.p, 0, filling{})
		if r.Growth = q.Diameter; w.in.GaugeZ > 0 {
			r.Growth = q.Gauge
		}
		if w.clear > 0 {
			r.Sag = 1 - q.Clearance/w.clear
		}
		for _, o := range w.in.Others {
			v := o.Of(q)
			if r.Others = append(r.Others, v); v > o.Most {
				r.Limit = o.Name
			}
		}
		switch {
		case r.Growth > w.in.Growth:
			r.Limit = "growth"
		case w.in.Sag > 0 && r.Sag > w.in.Sag:
			r.Limit = "clearance"
		}
	}
	// The buckling load of a given wall goes with its stiffness.
	if r.TopLoad = w.top * soft; w.top > 0 && r.TopLoad < w.in.TopLoad {
		r.Limit = "top load"
	}
	return r, nil
}

// step is the pack at a temperature.
func (w *warming) step(t unit.Temperature) (step, error) {
	var s step
	if w.in.Sealed == nil {
		s.pressure = w.in.Pressure(t)
	} else {
		of, err := w.in.Sealed(t)
		if err != nil {
			return s, fmt.Errorf("shell: softening: pressure at ‹%.1f °C›: %w", t.Celsius(), err)
		}
		s = Stage{Sealed: of}.step(w.m)
		s.pressure, _ = of(0)
	}
	if bad(s.pressure) || math.Abs(s.pressure) > 1e8 {
		return s, fmt.Errorf("shell: softening: pressure ‹%g Pa› at ‹%.1f °C›", s.pressure, t.Celsius())
	}
	return s, nil
}
