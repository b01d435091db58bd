package drawdown

import (
	"errors"
	"fmt"
	"math"

	"costrel/num/curve"
	"costrel/physics/bottle"
	"costrel/physics/preform"
)

// Input is a preform, a bottle, and where the material is to go.
type Input struct {
	Preform *preform.Preform
	Bottle  *bottle.Bottle
	Density float64 // solid density of the blown wall [kg/m³]
	// Targets are the section weights as weighed [kg], from the base up, one
	// more than there are cut planes; the topmost includes the finish.
	// Empty: the rule of thumb, see [RuleShares].
	Targets []float64
	// Planes are the heights at which the sections part [m], rising; empty:
	// those of the bottle, see [bottle.Bottle.CutPlanes].
	Planes []float64
	// Tolerance is how far the sum of the targets may be from the mass of the
	// preform [kg]; 0 is 0.3 g.
	Tolerance float64
	// Uniform stretches the preform evenly along its mid-line instead; it
	// takes no targets and no shape.
	Uniform bool
	// Shape of the wall inside the sections; nil is [DefaultShape].
	Shape *Shape
	// Stations to report, at least 10; 0 is 400.
	Stations int
	// Quick takes the grid as fine as the stations and no finer: for runs that
	// only ask how the wall answers to an input.
	Quick bool
}

// Result is the wall of the bottle from the gate to the ledge, one value a
// station, and its summary. Places are arc length and height of the outer
// profile.
type Result struct {
	Stations  bottle.Stations
	Wall      []float64 // along the normal, averaged round the axis [m]
	RealWall  []float64 // mean wall of the real base shape [m]: Wall / area ratio
	HoopInner []float64
	HoopMid   []float64
	HoopOuter []float64
	Axial     []float64
	Planar    []float64 // by thickness
	Mass      []float64 // from the gate [kg]
	PreformS  []float64 // arc length on the preform that came here [m]

	Sections []Section
	Min      Extreme // thinnest wall
	Panel    float64 // mean wall of the panel section over its area [m]
	Mean     float64 // mean wall of the whole bottle over its area [m]
	Method   string
	Warnings []string

	profile curve.Wall
}

// Section is one section between cut planes.
type Section struct {
	bottle.Section
	Target     float64 // as given [kg]; 0 where none was
	PreformArc float64 // mid-line of the preform that came here [m]
	Axial      float64 // arc of the section / PreformArc
	Planar     float64 // mass a surface of the preform body / of the section: w ρp A/m
}

// Extreme is a value with its place.
type Extreme struct {
	Value, S, Z float64 // m
}

// Solve returns the draw-down. The mass of the preform below the ledge is
// conserved to rounding.
//
// It fails on a faulty input, on targets whose sum is not the mass of the
// preform, on a bottle neck narrower than the preform's bore, and where the
// material asked for does not fit inside the profile.
func Solve(in Input) (*Result, error) {
	if err := in.check(); err != nil {
		return nil, err
	}
	g, err := newGrid(in)
	if err != nil {
		return nil, err
	}
	var warnings []string
	method := "even axial stretch of the preform"
	var m mapping
	targets := make([]float64, len(g.planes)+1)
	// again returns the mapping for scaled weights of the spans
	var again func(scale []float64) (mapping, error)
	if in.Uniform {
		m = g.uniform()
		again = func(scale []float64) (mapping, error) {
			q := mapping{m.mass, make([]float64, len(m.areal))}
			for k, a := range m.areal {
				q.areal[k] = a * scale[0]
			}
			return q, nil
		}
	} else {
		zones, how, warn, err := in.zones(g)
		if err != nil {
			return nil, err
		}
		method = how
		warnings = append(warnings, warn...)
		copy(targets, in.Targets)
		var more []string
		m, more, err = g.through(zones, in.shape())
		if err != nil {
			return nil, err
		}
		warnings = append(warnings, more...)
		again = func(scale []float64) (mapping, error) {
			z := append([]float64(nil), zones...)
			for i := range z {
				z[i] *= scale[i]
			}
			q, _, err := g.through(z, in.shape())
			return q, err
		}
	}
	w, err := g.solid(m, g.spans(in.Uniform), again)
	if err != nil {
		return nil, err
	}
	r := g.report(m, w, targets)
	r.Method = method
	r.Warnings = append(r.Warnings, warnings...)
	r.Warnings = append(r.Warnings, in.Bottle.Warnings()...)
	return r, r.finite()
}

// check refuses inputs that make no sense; every fault is reported.
func (in Input) check() error {
	var faults []error
	fault := func(format string, args ...any) { faults = append(faults, fmt.Errorf("draw-down: "+format, args...)) }
	if in.Preform == nil || in.Bottle == nil {
		return errors.New("draw-down: preform or bottle missing")
	}
	if !(in.Density > 0) || math.IsInf(in.Density, 0) {
		fault("density of the wall %v kg/m³: want a positive value", in.Density)
	}
	if !(in.Tolerance >= 0) || math.IsInf(in.Tolerance, 0) {
		fault("tolerance %v kg: want 0 (0.3 g) or more", in.Tolerance)
	}
	if in.Stations != 0 && (in.Stations < 10 || in.Stations > 100000) {
		fault("%d stations: want 10 to 100000, or 0 for 400", in.Stations)
	}
	if in.Uniform && (len(in.Targets) > 0 || in.Shape != nil) {
		fault("even axial stretch follows no section targets and no shape: leave them out, or do not ask for it")
	}
	for i, t := range in.Targets {
		if !(t > 0) || math.IsInf(t, 0) {
			fault("section target %d is %.4g g: want a positive mass", i+1, t*1e3)
		}
	}
	if in.Shape != nil {
		if err := in.Shape.check(); err != nil {
			faults = append(faults, err)
		}
	}
	return errors.Join(faults...)
}

func (in Input) shape() Shape {
	if in.Shape != nil {
		return *in.Shape
	}
	return DefaultShape(in.Preform)
}

// finite guards the way out: no NaN or infinity leaves.
func (r *Result) finite() error {
	for name, list := range map[string][]float64{
		"wall": r.Wall, "real wall": r.RealWall, "hoop stretch inside": r.HoopInner, "hoop stretch": r.HoopMid,
		"hoop stretch outside": r.HoopOuter, "axial stretch": r.Axial, "planar stretch": r.Planar, "mass": r.Mass,
	} {
		for i, v := range list {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return fmt.Errorf("draw-down: %s at z ‹%.4g mm› is %v", name, r.Stations.Z[i]*1e3, v)
			}
		}
	}
	return nil
}
