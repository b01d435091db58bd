package oven

import (
	"fmt"
	"math"
	"sort"

	"costrel/physics/preform"
	"costrel/unit"
)

// Field is the temperature of a preform through the wall and along it [K].
type Field struct {
	S       []float64   // arc length from the gate of the slice middles, rising [m]
	Edge    []float64   // ends of the cells through the wall, 0 inside to 1 outside
	T       [][]float64 // T[slice][cell], inside first
	Inside  []float64   // inner face, one a slice
	Mean    []float64   // over the volume of the slice
	Outside []float64   // outer face
	Mass    []float64   // of the slices [kg]
	Volume  [][]float64 // of the cells over that of the slice
}

// Average returns the mean over the mass of the preform below the ledge.
func (f *Field) Average() unit.Temperature {
	sum, m := 0.0, 0.0
	for i, v := range f.Mean {
		sum += v * f.Mass[i]
		m += f.Mass[i]
	}
	return unit.Temperature(sum / m)
}

// at returns the slices that hold the arc length s and the weight of the
// second.
func (f *Field) at(s float64) (i, j int, w float64) {
	n := len(f.S)
	j = sort.SearchFloat64s(f.S, s)
	switch {
	case j == 0:
		return 0, 0, 0
	case j == n:
		return n - 1, n - 1, 0
	}
	return j - 1, j, (s - f.S[j-1]) / (f.S[j] - f.S[j-1])
}

// At returns the temperature [K] at the arc length s [m] from the gate and the
// depth 0 (inside) to 1 (outside), straight between slices and cells and held
// at the ends.
func (f *Field) At(s, depth float64) unit.Temperature {
	i, j, w := f.at(s)
	return unit.Temperature(f.through(i, depth)*(1-w) + f.through(j, depth)*w)
}

func (f *Field) through(i int, depth float64) float64 {
	x0, t0 := 0.0, f.Inside[i]
	for k, t := range f.T[i] {
		x1 := (f.Edge[k] + f.Edge[k+1]) / 2
		if depth <= x1 {
			return t0 + (t-t0)*math.Max(0, depth-x0)/(x1-x0)
		}
		x0, t0 = x1, t
	}
	return t0 + (f.Outside[i]-t0)*math.Min(1, (depth-x0)/(1-x0))
}

// MeanAt returns the mean through the wall [K] at the arc length s [m].
func (f *Field) MeanAt(s float64) unit.Temperature {
	i, j, w := f.at(s)
	return unit.Temperature(f.Mean[i]*(1-w) + f.Mean[j]*w)
}

// Layers writes to out, inside first, the mean temperature [K] of len(out)
// layers of even thickness at the arc length s [m]. The volume of the layers
// weighs in, so their mean by volume is that of the wall.
func (f *Field) Layers(s float64, out []float64) {
	i, j, w := f.at(s)
	n := float64(len(out))
	for k := range out {
		a, b := float64(k)/n, float64(k+1)/n
		out[k] = f.layer(i, a, b)*(1-w) + f.layer(j, a, b)*w
	}
}

func (f *Field) layer(i int, a, b float64) float64 {
	sum, vol := 0.0, 0.0
	for c, t := range f.T[i] {
		lo, hi := math.Max(a, f.Edge[c]), math.Min(b, f.Edge[c+1])
		if hi <= lo {
			continue
		}
		v := f.Volume[i][c] * (hi - lo) / (f.Edge[c+1] - f.Edge[c])
		sum += v * t
		vol += v
	}
	return sum / vol
}

// Card is the temperature that a process card asks for at blow.
type Card struct {
	Inside, Mean, Outside unit.Temperature
	Tilt                  unit.TemperatureDiff // tip minus neck, straight along the arc; the mean over the mass stays
	Bow                   unit.TemperatureDiff // half way along the arc minus both ends, a parabola; the mean stays
	Skew                  unit.TemperatureDiff // at 0.21 of the way from the neck above tilt and bow, at 0.79 below, a cubic; the mean stays
}

// Imposed returns the field of a process card without any oven: through the
// wall the parabola that has the inner and outer face and the mean by volume
// asked for, the same in every slice but for the tilt. It refuses
// temperatures outside 60..200 °C and three that no smooth profile joins: a
// mean more than 8 K outside the two faces.
func Imposed(p *preform.Preform, g Grid, c Card) (*Field, error) {
	for _, t := range []struct {
		name string
		t    unit.Temperature
	}{{"inside", c.Inside}, {"mean", c.Mean}, {"outside", c.Outside}} {
		if d := t.t.Celsius(); !(d >= 60 && d <= 200) {
			return nil, fmt.Errorf("oven: imposed: %s ‹%.4g °C› outside ‹60..200 °C›", t.name, d)
		}
	}
	if !(math.Abs(float64(c.Tilt)) <= 60) {
		return nil, fmt.Errorf("oven: imposed: tilt %.4g K outside -60..60 K", float64(c.Tilt))
	}
	if !(math.Abs(float64(c.Bow)) <= 40) {
		return nil, fmt.Errorf("oven: imposed: bow %.4g K outside -40..40 K", float64(c.Bow))
	}
	if !(math.Abs(float64(c.Skew)) <= 30) {
		return nil, fmt.Errorf("oven: imposed: skew %.4g K outside -30..30 K", float64(c.Skew))
	}
	if lo, hi := min(c.Inside, c.Outside), max(c.Inside, c.Outside); c.Mean < lo-8 || c.Mean > hi+8 {
		return nil, fmt.Errorf("oven: imposed: mean ‹%.4g °C› is more than 8 K outside the faces ‹%.4g and %.4g °C›: check the card", c.Mean.Celsius(), c.Inside.Celsius(), c.Outside.Celsius())
	}
	if g.Cells < 4 || g.Cells > 200 {
		return nil, fmt.Errorf("oven: imposed: %d cells outside 4..200", g.Cells)
	}
	slices, err := Slices(p, g.Slices)
	if err != nil {
		return nil, err
	}
	all := p.ArcLength()
	along := func(s float64) float64 {
		x := 1 - s/all // from the neck
		bend := x * (1 - x)
		return float64(c.Tilt)*x + float64(c.Bow)*4*bend + float64(c.Skew)*6*math.Sqrt(3)*bend*(1-2*x)
	}
	mean, mass := 0.0, 0.0 // over the mass, which stays
	for _, s := range slices {
		mean += along(s.S) * s.Mass
		mass += s.Mass
	}
	mean /= mass
	f := newField(slices, g.Cells)
	for i := range slices {
		w, _, err := slices[i].mesh(g.Cells, p.Spec().Density)
		if err != nil {
			return nil, err
		}
		f.shape(i, w)
		// means over the volume of x and x(1-x)
		var mx, mq float64
		for k, v := range f.Volume[i] {
			a, b := f.Edge[k], f.Edge[k+1]
			mx += v * (a + b) / 2
			mq += v * ((a+b)/2 - (a*a+a*b+b*b)/3)
		}
		d := float64(c.Outside - c.Inside)
		q := (float64(c.Mean-c.Inside) - d*mx) / mq
		base := float64(c.Inside) + along(slices[i].S) - mean
		f.Inside[i], f.Outside[i] = base, base+d
		f.Mean[i] = base + float64(c.Mean-c.Inside)
		for k := range f.T[i] {
			a, b := f.Edge[k], f.Edge[k+1]
			f.T[i][k] = base + d*(a+b)/2 + q*((a+b)/2-(a*a+a*b+b*b)/3)
		}
	}
	return f, nil
}
