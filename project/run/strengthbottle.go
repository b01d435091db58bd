package run

import (
	"fmt"
	"math"
	"sort"

	"costrel/physics/resin"
	"costrel/physics/shell"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// shellBottle returns the bottle for the virtual tests of strength: the outer
// profile with its wall, the stiffness and strength of every place by its own
// stretch, and for a petaloid base the round dome on which its valleys lie.
func shellBottle(d *design.Design, shape *Shape, w *Wall) (shell.Bottle, []string, error) {
	st, err := shape.Bottle.Stations(321)
	if err != nil {
		return shell.Bottle{}, nil, err
	}
	base := shape.Bottle.Spec().Base
	petaloid := d.Bottle.Base.Type == "petaloid"
	body := 0.0
	if petaloid {
		body = d.Bottle.Base.Height
	}
	var out []shell.Station
	var warnings []string
	add := func(z, r, t float64, p shell.Ply) {
		if n := len(out); n > 0 && math.Hypot(z-out[n-1].Z, r-out[n-1].R) < 0.05e-3 {
			return
		}
		out = append(out, shell.Station{Z: z, R: r, Wall: t, Ply: shell.Even(p)})
	}
	at := func(s float64) (float64, shell.Ply, error) {
		t, _ := w.Along.At(s)
		hoop, axial := w.stretchAt(s)
		p, err := ply(d, hoop, axial)
		return t, p, err
	}
	if petaloid {
		r, err := shape.Bottle.DiameterAt(body)
		if err != nil {
			return shell.Bottle{}, nil, err
		}
		if push := d.Bottle.Base.PushUp; !(body > push+shell.DomeLeast*r/2) {
			return shell.Bottle{}, nil, fmt.Errorf("bottle.base.height %s is too low for a round dome over bottle.base.push_up %s: above %s, a tenth of the body's diameter more than the push-up; raise the one or lower the other",
				unit.Quote(unit.Length, body, 4), unit.Quote(unit.Length, push, 4), unit.Quote(unit.Length, push+shell.DomeLeast*r/2, 4))
		}
		if base.StandingRadius > r/2 {
			return shell.Bottle{}, nil, fmt.Errorf("bottle.base.standing_diameter %s is wider than the bottle at bottle.base.height, %s: stand it on less or make the base higher", unit.Quote(unit.Length, 2*base.StandingRadius, 4), unit.Quote(unit.Length, r, 4))
		}
		end := shape.Bottle.CutS(body)
		var fault error
		plyOf := func(share float64) shell.Layers {
			_, p, err := at(share * end)
			if err != nil {
				fault = err
			}
			return shell.Even(p)
		}
		wallOf := func(share float64) float64 {
			t, _ := w.Along.At(share * end)
			return t
		}
		dome, err := shell.Dome(r/2, body, d.Bottle.Base.PushUp, 60, wallOf, plyOf)
		if err == nil {
			err = fault
		}
		if err != nil {
			return shell.Bottle{}, nil, err
		}
		out = append(out, dome...)
		warnings = append(warnings, "the petaloid base stands as the round dome of its valleys; feet come in by factors")
	}
	for i := range st.S {
		if petaloid && st.Z[i] <= body+1e-6 {
			continue
		}
		t, p, err := at(st.S[i])
		if err != nil {
			return shell.Bottle{}, nil, err
		}
		add(st.Z[i], st.R[i], t, p)
	}
	if d.Bottle.Base.Type == "ribbed" {
		warnings = append(warnings, quality.EstimatePrefix+": the ribs of the base are averaged round the axis; they stiffen it, so that it rolls out at more pressure than computed")
	}
	if len(out) < 10 {
		return shell.Bottle{}, nil, fmt.Errorf("strength: only %d places of the wall", len(out))
	}
	b := shell.Bottle{Stations: out, Sizing: shell.Sizing{Factor: sizing}, Hard: hardeningOf(d.Handling.Hardening), Creep: creepOf(d.Handling.Creep)}
	if petaloid || d.Bottle.Base.Type == "hemisphere" {
		b.Stand = base.StandingRadius
	}
	if petaloid {
		// A push-up of 0 is a gate on the plane, not one to be measured on the dome.
		b.Gate, b.Edge = math.Max(d.Bottle.Base.PushUp, 1e-9), body
	}
	return b, warnings, nil
}

// ply returns stiffness and strength of the wall by its stretch.
func ply(d *design.Design, hoop, axial float64) (shell.Ply, error) {
	hoop, axial = math.Max(hoop, 1), math.Max(axial, 1)
	law := resin.DefaultPower()
	es, _, err := law.Modulus(axial, hoop)
	if err != nil {
		return shell.Ply{}, err
	}
	eh, _, err := law.Modulus(hoop, axial)
	if err != nil {
		return shell.Ply{}, err
	}
	strength := resin.DefaultStrength()
	ys, us, _, err := strength.At(axial)
	if err != nil {
		return shell.Ply{}, err
	}
	yh, uh, _, err := strength.At(hoop)
	if err != nil {
		return shell.Ply{}, err
	}
	e, q := d.Handling.Modulus, d.Handling.Strength
	return shell.Ply{Es: es * e, Eh: eh * e, Nu: 0.38, Ys: ys * q, Yh: yh * q, Us: us * q, Uh: uh * q}, nil
}

// stretchAt returns hoop (mid wall) and axial stretch at an arc of the outline.
func (w *Wall) stretchAt(s float64) (hoop, axial float64) {
	if w.Blown != nil {
		return w.Blown.stretchAt(s)
	}
	r := w.Draw
	return between(r.Stations.S, r.HoopMid, s), between(r.Stations.S, r.Axial, s)
}

func (b *Blown) stretchAt(s float64) (hoop, axial float64) {
	i, j, f := bracket(b.S, s)
	p, q := b.Places[i], b.Places[j]
	return p.Hoop + f*(q.Hoop-p.Hoop), p.Axial + f*(q.Axial-p.Axial)
}

// between reads a table by straight lines; its ends hold beyond.
func between(x, y []float64, at float64) float64 {
	i, j, f := bracket(x, at)
	return y[i] + f*(y[j]-y[i])
}

// bracket returns the rows of a rising table between which a place lies, and
// the share of the way from the first to the second; beyond an end both are
// that end.
func bracket(x []float64, at float64) (i, j int, share float64) {
	j = sort.Search(len(x), func(k int) bool { return !(x[k] < at) })
	switch {
	case j == 0:
		return 0, 0, 0
	case j == len(x):
		return j - 1, j - 1, 0
	}
	return j - 1, j, (at - x[j-1]) / (x[j] - x[j-1])
}

// hardeningOf returns the hardening of a wall that reaches its ultimate strength
// at an equivalent plastic strain. The strength over the unloaded section stays as
// it is: a wall that stretches further is thinner then, and its true stress higher,
// by e^(√3/2 x) round a closed cylinder.
func hardeningOf(strain float64) shell.Hardening {
	law := shell.DefaultLinear()
	if strain <= 0 {
		return law
	}
	return shell.Linear{Ultimate: law.Ultimate * math.Exp(math.Sqrt(3)/2*(strain-law.Strain)), Strain: strain}
}

// creepOf returns the creep law of the wall times a factor.
func creepOf(factor float64) shell.Creep {
	law := shell.DefaultFindley()
	law.M *= factor
	return law
}

// sizing is the length of the elements over √(r t) in the virtual tests. By
// [TestStrengthMesh] it is short enough: a quarter of it moves no figure by more
// than the estimate of its mesh, and none but the crack index by more than 2 %.
const sizing = 0.8
