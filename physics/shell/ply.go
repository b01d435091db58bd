package shell

import (
	"fmt"
	"math"
)

// Points is the number of points through the wall. They are those of the
// five-point Lobatto rule, inside first: both faces are among them, and a
// polynomial of degree 7 is integrated exactly.
const Points = 5

// Place of the points from inside (-1) to outside (+1) and their weights,
// which add up to 1. Exact values of the rule.
var (
	zeta   = [Points]float64{-1, -math.Sqrt(3.0 / 7), 0, math.Sqrt(3.0 / 7), 1}
	weight = [Points]float64{0.05, 49.0 / 180, 16.0 / 45, 49.0 / 180, 0.05}
)

// Ply is the wall at one place and one depth, at the temperature of the case.
// Strengths of 0 mean: not known, and nothing yields there.
type Ply struct {
	Es, Eh float64 // modulus along the meridian and round [Pa]
	Nu     float64 // geometric mean of both Poisson's ratios, 0..0.49
	Ys, Yh float64 // yield strengths [Pa]
	Us, Uh float64 // ultimate strengths [Pa]: force over the unloaded section, as tensile tests and Barlow's formula give them
}

// Layers are the plies at the five points through the wall, inside first.
type Layers [Points]Ply

// Even returns the layers of a wall alike through its depth.
func Even(p Ply) Layers { return Layers{p, p, p, p, p} }

// Graded returns the layers of a wall that changes linearly from inside to
// outside; a preform stretches more inside than outside.
func Graded(inside, outside Ply) Layers {
	var l Layers
	for i, z := range zeta {
		l[i] = mix(inside, outside, (1+z)/2)
	}
	return l
}

// Isotropic returns a ply of modulus E and Poisson's ratio nu that never yields.
func Isotropic(E, nu float64) Ply { return Ply{Es: E, Eh: E, Nu: nu} }

// mix returns the ply at the share x from a to b.
func mix(a, b Ply, x float64) Ply {
	l := func(p, q float64) float64 { return p + x*(q-p) }
	return Ply{l(a.Es, b.Es), l(a.Eh, b.Eh), l(a.Nu, b.Nu), l(a.Ys, b.Ys), l(a.Yh, b.Yh), l(a.Us, b.Us), l(a.Uh, b.Uh)}
}

func mixLayers(a, b *Layers, x float64) Layers {
	var l Layers
	for i := range l {
		l[i] = mix(a[i], b[i], x)
	}
	return l
}

func (p Ply) check(where string) error {
	for _, v := range []struct {
		name      string
		x, lo, hi float64
		zero      bool
	}{
		{"modulus along", p.Es, 1e3, 1e13, false},
		{"modulus round", p.Eh, 1e3, 1e13, false},
		{"Poisson's ratio", p.Nu, 0, 0.499, false},
		{"yield strength along", p.Ys, 1e2, 1e12, true},
		{"yield strength round", p.Yh, 1e2, 1e12, true},
		{"ultimate strength along", p.Us, 1e2, 1e12, true},
		{"ultimate strength round", p.Uh, 1e2, 1e12, true},
	} {
		if v.zero && v.x == 0 {
			continue
		}
		if !(v.x >= v.lo && v.x <= v.hi) {
			return fmt.Errorf("shell: %s: %s %g outside %g..%g", where, v.name, v.x, v.lo, v.hi)
		}
	}
	if (p.Ys > 0) != (p.Yh > 0) {
		return fmt.Errorf("shell: %s: yield strength given in one direction only", where)
	}
	return nil
}

// sym2 is a symmetric 2 x 2 matrix: along, cross, round.
type sym2 struct{ s, c, h float64 }

func (m sym2) inverse() sym2 {
	d := m.s*m.h - m.c*m.c
	return sym2{m.h / d, -m.c / d, m.s / d}
}

func (m sym2) mul(x [2]float64) [2]float64 {
	return [2]float64{m.s*x[0] + m.c*x[1], m.c*x[0] + m.h*x[1]}
}

// compliance returns the plane-stress compliance
//
//	ε_s = σ_s/E_s - ν σ_h/√(E_s E_h)      ε_h = σ_h/E_h - ν σ_s/√(E_s E_h)
func (p *Ply) compliance() sym2 {
	return sym2{1 / p.Es, -p.Nu / math.Sqrt(p.Es*p.Eh), 1 / p.Eh}
}

// shear returns the shear modulus √(E_s E_h) / (2 (1 + ν)) [Pa].
func (p *Ply) shear() float64 { return math.Sqrt(p.Es*p.Eh) / (2 * (1 + p.Nu)) }

// hill returns P with σ̄² = σᵀ P σ, scaled so that σ̄ is stress for equal yield
// strengths (then it is Mises), and the reference yield √(Ys Yh). Without
// yield strengths P is that of Mises and the reference is infinite.
//
//	(σ̄/Y)² = (σ_s/Ys)² - σ_s σ_h/(Ys Yh) + (σ_h/Yh)²,  Y = √(Ys Yh)
func (p *Ply) hill() (sym2, float64) {
	if !(p.Ys > 0) {
		return sym2{1, -0.5, 1}, math.Inf(1)
	}
	return sym2{p.Yh / p.Ys, -0.5, p.Ys / p.Yh}, math.Sqrt(p.Ys * p.Yh)
}
