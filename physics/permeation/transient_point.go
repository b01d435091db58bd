package permeation

import (
	"fmt"
	"math"

	"costrel/physics/climate"
	"costrel/unit"
)

// Point is the pack at one time.
type Point struct {
	Time        float64 // [s]
	Temperature unit.Temperature
	Humidity    float64 // outside, 0..1
	Pressure    unit.AbsPressure
	Gauge       unit.GaugePressure
	Partial     [3]float64 // by Gas [Pa]
	Vapour      float64    // [Pa]
	// The warmest and the coldest hour of the day where the lane is calmed
	// ([climate.Lane.Calm]): drink, gas and bottle in balance there. Otherwise
	// Temperature and Gauge.
	Warm, Cool           unit.Temperature
	WarmGauge, CoolGauge unit.GaugePressure

	Bottle, Liquid, Headspace float64 // [m³]
	Growth                    float64 // of the volume of the bottle, share of that at ambient pressure when closed
	// Carbonation is what the pack reads at the temperature of reading [kg/m³,
	// on the drink's basis].
	Carbonation float64

	// Of carbon dioxide, since closing [mol].
	Passed, InWall, ThroughCap float64
	// Oxygen [kg]: Ingress is what has come to drink and headspace through wall
	// and closure, IngressCap the part of the closure; Dissolved stands in the
	// drink, Consumed has reacted with it, Scavenged was bound on the way.
	Ingress, IngressCap, Dissolved, Consumed, Scavenged float64
	// ScavengerLeft is the share of the capacity of the closure's liner.
	ScavengerLeft float64
	WaterLost     float64 // [kg]
}

// At returns the pack at t [s], 0..the end of the run: from the cubic between
// the ends of the step, every derived number worked out anew.
func (l *Life) At(t float64) (Point, error) {
	// At a jump of the lane the later state holds, as the lane has it.
	st, err := l.m.course.At(t)
	if err != nil {
		return Point{}, fmt.Errorf("permeation: %w", err)
	}
	return l.point(t, st)
}

// Brought returns the pack at t [s], brought to a temperature: drink, gas and
// bottle are in balance there, what has crossed the wall and crept stays.
func (l *Life) Brought(t float64, to unit.Temperature) (Point, error) {
	st, err := l.m.course.At(t)
	if err == nil {
		err = CheckTemperature(to)
	}
	if err != nil {
		return Point{}, fmt.Errorf("permeation: %w", err)
	}
	st.Temperature, st.Warm, st.Cool = to, to, to
	return l.point(t, st)
}

func (l *Life) point(t float64, st climate.State) (Point, error) {
	s, y, err := l.state(t)
	if err != nil {
		return Point{}, err
	}
	m := l.m
	near := s.p1
	if t-s.t < s.h/2 {
		near = s.p0
	}
	e, b, err := l.settle(y, st.Temperature, float64(st.Ambient), near)
	if err != nil {
		return Point{}, fault(t, err)
	}
	_, read, err := l.settle(y, l.read, float64(st.Ambient), near)
	if err != nil {
		return Point{}, fault(t, err)
	}
	const o2 = 31.9988e-3 // kg/mol
	oxygen := m.acc + int(Oxygen)
	out := Point{
		Time: t, Temperature: st.Temperature, Humidity: st.Humidity,
		Pressure: unit.AbsPressure(b.total), Gauge: unit.GaugePressure(b.total - e.ambient), Partial: b.p, Vapour: e.vapour,
		Bottle: b.bottle, Headspace: b.space, Liquid: b.bottle - b.space,
		Growth:      b.bottle/m.pack.Volume - 1,
		Carbonation: m.pack.Liquid.Carbonation(read.dissolved / y[atWater]),
		Passed:      y[m.acc+passed], InWall: y[m.small] - l.first[m.small], ThroughCap: y[m.acc+closed],
		Ingress:    -o2 * (y[oxygen+entered] + y[oxygen+closed]),
		IngressCap: -o2 * y[oxygen+closed],
		Dissolved:  o2 * b.o2liquid, Consumed: o2 * y[m.acc+consumed],
		Scavenged:     o2 * (y[m.acc+boundWall] + y[m.acc+boundCap]),
		ScavengerLeft: y[atLiner],
		WaterLost:     l.first[atWater] - y[atWater],
		Warm:          st.Warm, Cool: st.Cool,
	}
	out.WarmGauge, out.CoolGauge = out.Gauge, out.Gauge
	for _, x := range [...]struct {
		t  unit.Temperature
		to *unit.GaugePressure
	}{{st.Warm, &out.WarmGauge}, {st.Cool, &out.CoolGauge}} {
		if x.t == st.Temperature {
			continue
		}
		_, b, err := l.settle(y, x.t, float64(st.Ambient), b.p)
		if err != nil {
			return Point{}, fault(t, err)
		}
		*x.to = unit.GaugePressure(b.total - e.ambient)
	}
	return out, nil
}

// Series returns the pack at the times.
func (l *Life) Series(times []float64) ([]Point, error) {
	out := make([]Point, 0, len(times))
	for _, t := range times {
		p, err := l.At(t)
		if err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, nil
}

// Times returns the ends of the steps the run took, 0 included [s]: where it
// moves quickly they stand close.
func (l *Life) Times() []float64 {
	out := []float64{0}
	for _, s := range l.steps {
		out = append(out, s.t+s.h)
	}
	return out
}

// Balance returns, by gas, what is not accounted for at the end of the run,
// relative to all that there was inside, in the wall and through its faces:
//
//	inside + wall + passed + closure + consumed + bound - start
//
// rounding alone.
func (l *Life) Balance() [3]float64 {
	m := l.m
	w := l.width
	last := l.values[len(l.values)-3*w : len(l.values)-2*w]
	var out [3]float64
	for g := range gases {
		now := last[g] + last[m.small+int(g)] + last[m.acc+passed+int(g)] + last[m.acc+closed+int(g)]
		then := l.first[g] + l.first[m.small+int(g)]
		all := then + math.Abs(last[m.acc+passed+int(g)]) + math.Abs(last[m.acc+closed+int(g)])
		if g == Oxygen {
			now += last[m.acc+consumed] + last[m.acc+boundWall]
		}
		if all > 0 {
			out[g] = (now - then) / all
		}
	}
	return out
}

// Expansion splits the growth in volume of a closed cylinder into that of its
// diameter and of its height.
//
//	dD/D = g (1 - nu/2)/(2.5 - 2 nu),  dH/H = g (0.5 - nu)/(2.5 - 2 nu)
//
// growth g as in Point, Poisson's ratio nu. The feet of a base push out on top
// of it; a structural model knows them.
// Source: Timoshenko1959, thin closed cylinder (from memory).
func Expansion(growth, nu float64) (diameter, height float64) {
	k := growth / (2.5 - 2*nu)
	return k * (1 - nu/2), k * (0.5 - nu)
}

// FillDrop returns by how much the level in the neck falls [m] between two
// states: the growth of the bottle less that of the liquid, over the area of
// the neck [m²].
func FillDrop(from, to Point, neck float64) float64 {
	return ((to.Bottle - from.Bottle) - (to.Liquid - from.Liquid)) / neck
}
