package stat

import (
	"fmt"
	"math"
	"slices"
)

// Harmonic describes readings at equal angles round a bottle.
type Harmonic struct {
	Mean      float64 `json:"mean"`
	Amplitude float64 `json:"amplitude"` // of the first harmonic, in the unit of the readings
	Phase     float64 `json:"phase"`     // angle of its thickest place [rad], 0..2 pi
	Spread    float64 `json:"spread"`    // (max - min)/mean
	First     float64 `json:"first"`     // 2 amplitude/mean: the spread that the first harmonic makes
}

// FirstHarmonic returns the first harmonic of n >= 3 readings at the angles
// 0, 2 pi/n, ...:
//
//	a = 2/n Σ x cos φ,  b = 2/n Σ x sin φ,  amplitude = sqrt(a²+b²),  phase = atan2(b, a)
//
// One-sided heat and an offset gate show as a first harmonic of one phase over
// the height; random readings do not. The mean must be above 0.
func FirstHarmonic(x []float64) (Harmonic, error) {
	if err := finite("first harmonic", x, 3); err != nil {
		return Harmonic{}, err
	}
	s, err := Summarize(x)
	if err != nil {
		return Harmonic{}, err
	}
	if !(s.Mean > 0) {
		return Harmonic{}, fmt.Errorf("stat: first harmonic: mean %g, want above 0", s.Mean)
	}
	var a, b float64
	for i, v := range x {
		phi := 2 * math.Pi * float64(i) / float64(len(x))
		a += (v - s.Mean) * math.Cos(phi)
		b += (v - s.Mean) * math.Sin(phi)
	}
	a *= 2 / float64(len(x))
	b *= 2 / float64(len(x))
	h := Harmonic{Mean: s.Mean, Amplitude: math.Hypot(a, b), Spread: (s.Max - s.Min) / s.Mean}
	h.First = 2 * h.Amplitude / s.Mean
	if h.Amplitude > 0 {
		h.Phase = math.Mod(math.Atan2(b, a)+2*math.Pi, 2*math.Pi)
	}
	return h, nil
}

// Alignment says whether the phases of several levels agree.
type Alignment struct {
	Phase  float64 `json:"phase"`  // mean direction [rad], 0..2 pi
	Length float64 `json:"length"` // mean resultant length: 1 where all agree, near 0 at random
	P      float64 `json:"p"`      // probability of so large a length from random phases (Rayleigh)
	Lo, Hi float64 // ends of the smallest arc round Phase that holds all phases [rad]; Lo may be below 0, Hi above 2 pi
}

// Align returns the alignment of at least two phases [rad]. Each level has
// equal weight. The probability is the Rayleigh test with its correction for
// small n. Source: MardiaJupp2000.
func Align(phases []float64) (Alignment, error) {
	if err := finite("alignment", phases, 2); err != nil {
		return Alignment{}, err
	}
	var c, s float64
	for _, p := range phases {
		c += math.Cos(p)
		s += math.Sin(p)
	}
	n := float64(len(phases))
	r := math.Hypot(c, s)
	out := Alignment{Length: math.Min(1, r/n)}
	if r > 0 {
		out.Phase = math.Mod(math.Atan2(s, c)+2*math.Pi, 2*math.Pi)
	}
	out.P = math.Min(1, math.Exp(math.Sqrt(1+4*n+4*math.Max(0, n*n-r*r))-(1+2*n)))
	off := make([]float64, len(phases))
	for i, p := range phases {
		off[i] = math.Remainder(p-out.Phase, 2*math.Pi)
	}
	out.Lo, out.Hi = out.Phase+slices.Min(off), out.Phase+slices.Max(off)
	return out, nil
}
