package shell

import (
	"fmt"
	"math"
)

// Hardening gives the yield strength as it grows with plastic strain, over
// the first yield strength.
type Hardening interface {
	Name() string
	// Ratio returns the strength over the first yield strength at equivalent
	// plastic strain x >= 0, and its slope.
	Ratio(x float64) (ratio, slope float64)
	check() error
}

// Hardenings returns the catalogue, the default first.
func Hardenings() []Hardening {
	return []Hardening{DefaultLinear(), Perfect{}, Swift{Start: 0.01, Exponent: 0.1}}
}

// Perfect does not harden.
type Perfect struct{}

// Name returns "perfect".
func (Perfect) Name() string { return "perfect" }

// Ratio implements [Hardening].
func (Perfect) Ratio(float64) (float64, float64) { return 1, 0 }
func (Perfect) check() error                     { return nil }

// Linear hardens to Ultimate times the yield strength at plastic strain
// Strain, and on at the same slope.
type Linear struct{ Ultimate, Strain float64 }

// DefaultLinear returns 1.5 times yield, in true stress, at a plastic strain of
// 0.10: about 1.35 times yield over the unloaded section. Chosen for this
// project for oriented polyester, to be set by burst curves.
func DefaultLinear() Linear { return Linear{Ultimate: 1.5, Strain: 0.10} }

// Name returns "linear".
func (Linear) Name() string { return "linear" }

// Ratio implements [Hardening].
func (l Linear) Ratio(x float64) (float64, float64) {
	k := (l.Ultimate - 1) / l.Strain
	return 1 + k*x, k
}

func (l Linear) check() error {
	if !(l.Ultimate >= 1 && l.Ultimate <= 100) || !(l.Strain > 1e-6 && l.Strain < 10) {
		return fmt.Errorf("shell: hardening: ultimate ratio %g (1..100) at strain %g (1e-6..10)", l.Ultimate, l.Strain)
	}
	return nil
}

// Swift hardens as ((Start + x)/Start)^Exponent. With a first yield of
// K Start^n it is σ̄ = K (Start + ε̄)^n.
type Swift struct{ Start, Exponent float64 }

// Name returns "swift".
func (Swift) Name() string { return "swift" }

// Ratio implements [Hardening].
func (s Swift) Ratio(x float64) (float64, float64) {
	r := math.Pow((s.Start+x)/s.Start, s.Exponent)
	return r, r * s.Exponent / (s.Start + x)
}

func (s Swift) check() error {
	if !(s.Start > 1e-9 && s.Start < 1) || !(s.Exponent >= 0 && s.Exponent <= 2) {
		return fmt.Errorf("shell: hardening: start %g (1e-9..1), exponent %g (0..2)", s.Start, s.Exponent)
	}
	return nil
}
