package oven

import (
	"fmt"
	"math"

	"costrel/num/conduct"
)

// OnePass returns the share of a spectrum that a wall of thickness h [m]
// absorbs in one pass without loss at its faces: the sum over the bands of
// share times 1 - exp(-kappa h), over the sum of the shares. h in 0..0.05 m.
// Source: Zhang2020 for kappa.
func OnePass(s Spectrum, h float64) (float64, error) {
	if !(h >= 0 && h <= 0.05) {
		return 0, fmt.Errorf("oven: absorption: wall ‹%g m› outside ‹0..0.05 m›", h)
	}
	sum := s.Sum()
	if !(sum > 0) || !finite(sum) {
		return 0, fmt.Errorf("oven: absorption: spectrum sums to %g", sum)
	}
	a := 0.0
	for i, b := range Bands() {
		a -= s[i] * math.Expm1(-b.Absorption*h)
	}
	return a / sum, nil
}

// Optics says how light is followed in the wall.
type Optics struct {
	// Focus lets rays run to the axis: the inner part of the wall, where they
	// are closer together, takes R/r more heat a volume. Without it each band
	// fades as in a plate and keeps its sum.
	Focus bool
	// Bore lets what leaves the inner face cross the bore into the far wall,
	// and counts all reflections inside. Without it light is lost after one
	// pass.
	Bore bool
}

// light is what became of radiation, over the area of the mid-surface [W/m²].
type light struct{ absorbed, escaped float64 }

// absorb adds to source, one value a cell [W/m² of mid-surface], what the wall
// takes of the light that has entered its outer face [W/m² of mid-surface].
//
// Inward light of one band is I just inside the outer face and fades to I t,
// t = exp(-kappa h). By symmetry what leaves into the bore arrives at the far
// wall, so outward light at the inner face is I t as well, and with the
// reflectance rho of the faces from inside
//
//	I = entered/(1 - rho t²)   absorbed I (1 - t²)   escaped (1 - rho) I t²
//
// which sums to what entered.
func absorb(bands []Band, w *conduct.Wall, entered Spectrum, rho float64, o Optics, source []float64) light {
	var l light
	h, n := w.Thickness, len(w.Mid)
	for b, p := range entered {
		if p <= 0 {
			continue
		}
		k := bands[b].Absorption
		t := math.Exp(-k * h)
		in, out := p, 0.0
		if o.Bore {
			in = p / (1 - rho*t*t)
			out = in * t
		}
		a := (in + out) * (1 - t)
		l.absorbed += a
		if o.Bore {
			l.escaped += (1 - rho) * out * t
		} else {
			l.escaped += in * t
		}
		if a <= 0 {
			continue
		}
		norm := 1.0
		if !o.Focus {
			// the same sum laid out by volume
			sum := 0.0
			for i := range n {
				sum += fade(w, k, h, in, out, i) * w.Volume[i] / (w.Face[i+1] - w.Face[i])
			}
			norm = a / sum
		}
		for i := range n {
			q := fade(w, k, h, in, out, i)
			if !o.Focus {
				q *= norm * w.Volume[i] / (w.Face[i+1] - w.Face[i])
			}
			source[i] += q
		}
	}
	return l
}

// fade is what cell i takes of inward and outward light.
func fade(w *conduct.Wall, k, h, in, out float64, i int) float64 {
	a, b := w.Face[i], w.Face[i+1]
	grow := -math.Expm1(-k * (b - a))
	return in*math.Exp(-k*(h-b))*grow + out*math.Exp(-k*a)*grow
}
