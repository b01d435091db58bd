package oven

import (
	"fmt"
	"math"
)

// secondRadiation is c2 = h c/k [m K]; exact constants. Source: CODATA2018.
const secondRadiation = 1.438776877e-2

// Fraction returns the share of black-body radiation of the temperature T [K]
// at wavelengths below lambda [m]:
//
//	F = 15/pi⁴ sum e^(-nx)/n (x³ + 3x²/n + 6x/n² + 6/n³),  x = c2/(lambda T)
//
// T in 200..4000 K; 0 at lambda 0, 1 at infinity. Source: Planck1901.
func Fraction(lambda, T float64) (float64, error) {
	if !(T >= 200 && T <= 4000) {
		return 0, fmt.Errorf("oven: spectrum: temperature %g K outside 200..4000 K", T)
	}
	if !(lambda >= 0) {
		return 0, fmt.Errorf("oven: spectrum: wavelength ‹%g m› below 0", lambda)
	}
	return fraction(lambda, T), nil
}

func fraction(lambda, T float64) float64 {
	if lambda <= 0 {
		return 0
	}
	x := secondRadiation / (lambda * T)
	if x < 0.05 {
		// power series of the short x, to 1e-9
		return 1 - 15/math.Pow(math.Pi, 4)*x*x*x*(1.0/3-x/8+x*x/60)
	}
	sum, e := 0.0, math.Exp(-x)
	p := 1.0
	for n := 1.0; n < 1000; n++ {
		p *= e
		d := p / n * (x*x*x + 3*x*x/n + 6*x/(n*n) + 6/(n*n*n))
		sum += d
		if d < 1e-13*sum {
			break
		}
	}
	return math.Min(1, 15/math.Pow(math.Pi, 4)*sum)
}

// Spectrum is radiation sorted into the bands; what lies below the first band
// is counted in it, what lies above the last in that, so a black body sums
// to 1.
type Spectrum [bandCount]float64

// BlackBody returns the spectrum of a black body of the temperature T [K]
// between the wavelengths from and to [m], as shares of the whole.
func BlackBody(T, from, to float64) (Spectrum, error) {
	var s Spectrum
	if !(T >= 200 && T <= 4000) {
		return s, fmt.Errorf("oven: spectrum: temperature %g K outside 200..4000 K", T)
	}
	if !(from >= 0 && to >= from) {
		return s, fmt.Errorf("oven: spectrum: wavelengths ‹%g..%g m› out of order", from, to)
	}
	return blackBody(Bands(), T, from, to), nil
}

func blackBody(bands []Band, T, from, to float64) Spectrum {
	var s Spectrum
	for i, b := range bands {
		lo, hi := b.From, b.To
		if i == 0 {
			lo = 0
		}
		if i == bandCount-1 {
			hi = math.Inf(1)
		}
		lo, hi = math.Max(lo, from), math.Min(hi, to)
		if hi <= lo {
			continue
		}
		top := 1.0
		if !math.IsInf(hi, 1) {
			top = fraction(hi, T)
		}
		s[i] = top - fraction(lo, T)
	}
	return s
}

// Sum returns the sum over the bands.
func (s Spectrum) Sum() float64 {
	t := 0.0
	for _, v := range s {
		t += v
	}
	return t
}

// lampSpectrum is the radiation of a lamp as shares of what it radiates: the
// filament through the quartz up to the cut-off, the rest again from the tube,
// which emits where it absorbs, beyond the cut-off.
func lampSpectrum(bands []Band, filament, tube, cutoff float64) Spectrum {
	s := blackBody(bands, filament, 0, cutoff)
	held := 1 - s.Sum()
	t := blackBody(bands, tube, cutoff, math.Inf(1))
	all := t.Sum()
	for i := range s {
		s[i] += held * t[i] / all
	}
	return s
}
