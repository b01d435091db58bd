package stat

import (
	"fmt"
	"math"

	"costrel/num/dist"
)

// Spec is a specification band. A side that is not set is open.
type Spec struct {
	Lower, Upper       float64
	HasLower, HasUpper bool
}

// Index is a capability index with its lower confidence bounds.
type Index struct {
	Value   float64 `json:"value"`
	Approx  float64 `json:"approx"` // lower bound: chi-squared for Cp, Bissell for Cpk
	Exact   float64 `json:"exact"`  // lower bound by the non-central t; one-sided specifications only
	IsExact bool    `json:"is_exact"`
}

// Capability holds the indices of a sample. Cp and Pp need both sides.
//
// Pp and Ppk are with the standard deviation of the whole sample, Cp and Cpk
// with the pooled one within subgroups (moulds, cavities, hours).
type Capability struct {
	Pp, Ppk Index
	HasPp   bool
	Cp, Cpk Index
	HasC    bool // subgroups were given
	HasCp   bool // and both sides
	WithinS float64
	Side    Tail // the side that decides Ppk
}

// Capability returns the capability of the fit against a specification, in
// the units of the values.
//
//	Pp = (U-L)/6s,  Ppk = min(U-mean, mean-L)/3s
//
// s = 0 is refused: the indices have no value. Sources: NIST2012 6.1.6,
// Bissell1990.
func (f Normal) Capability(spec Spec, confidence float64) (Capability, error) {
	return f.indices(spec, confidence, f.S, f.N-1)
}

// CapabilityWithin is Capability with, in addition, the indices of the spread
// within groups. The groups must hold the values of the fit.
func (f Normal) CapabilityWithin(spec Spec, confidence float64, groups []Group) (Capability, error) {
	out, err := f.indices(spec, confidence, f.S, f.N-1)
	if err != nil {
		return Capability{}, err
	}
	scaled := make([]Group, len(groups))
	for i, g := range groups {
		y, err := f.Scale.To(g.Values)
		if err != nil {
			return Capability{}, err
		}
		scaled[i] = Group{Name: g.Name, Values: y}
	}
	a, err := OneWay(scaled)
	if err != nil {
		return Capability{}, err
	}
	if a.N != f.N {
		return Capability{}, fmt.Errorf("stat: capability: %d values in groups, %d in the sample", a.N, f.N)
	}
	in, err := f.indices(spec, confidence, a.WithinS, a.WithinDF)
	if err != nil {
		return Capability{}, err
	}
	out.Cp, out.Cpk, out.HasC, out.HasCp, out.WithinS = in.Pp, in.Ppk, true, in.HasPp, a.WithinS
	// The exact bound holds for the spread of the whole sample alone.
	out.Cpk.Exact, out.Cpk.IsExact = 0, false
	return out, nil
}

func (f Normal) indices(spec Spec, confidence, s float64, df int) (Capability, error) {
	if err := inside("capability", "confidence", confidence); err != nil {
		return Capability{}, err
	}
	if !spec.HasLower && !spec.HasUpper {
		return Capability{}, fmt.Errorf("stat: capability: no limit")
	}
	if !(s > 0) || df < 1 {
		return Capability{}, fmt.Errorf("stat: capability: standard deviation %g with %d degrees of freedom", s, df)
	}
	up, down := math.Inf(1), math.Inf(1)
	ends := [2]float64{}
	for i, side := range []struct {
		v   float64
		has bool
	}{{spec.Lower, spec.HasLower}, {spec.Upper, spec.HasUpper}} {
		if !side.has {
			continue
		}
		y, err := f.Scale.To([]float64{side.v})
		if err != nil {
			return Capability{}, err
		}
		ends[i] = y[0]
	}
	if spec.HasLower {
		down = (f.Mean - ends[0]) / (3 * s)
	}
	if spec.HasUpper {
		up = (ends[1] - f.Mean) / (3 * s)
	}
	var out Capability
	out.Side = Lower
	if up < down {
		out.Side = Upper
	}
	var err error
	if out.Ppk, err = CpkBounds(math.Min(up, down), f.N, df, confidence); err != nil {
		return Capability{}, err
	}
	if spec.HasLower && spec.HasUpper {
		if ends[1] <= ends[0] {
			return Capability{}, fmt.Errorf("stat: capability: upper limit %g not above lower limit %g", spec.Upper, spec.Lower)
		}
		out.HasPp = true
		out.Ppk.Exact, out.Ppk.IsExact = 0, false
		if out.Pp, err = CpBounds((ends[1]-ends[0])/(6*s), df, confidence); err != nil {
			return Capability{}, err
		}
	}
	return out, nil
}

// CpBounds returns Cp with its lower confidence bound,
//
//	Cp sqrt( chi²(1-confidence; df) / df )
//
// Source: NIST2012 6.1.6.
func CpBounds(cp float64, df int, confidence float64) (Index, error) {
	if err := inside("Cp bound", "confidence", confidence); err != nil {
		return Index{}, err
	}
	x, err := dist.ChiSquaredQuantile(1-confidence, float64(df))
	if err != nil {
		return Index{}, err
	}
	b := cp * math.Sqrt(x/float64(df))
	return Index{Value: cp, Approx: b, Exact: b, IsExact: true}, nil
}

// CpkBounds returns Cpk of a sample of n, its spread with df degrees of
// freedom, with the approximate lower bound of Bissell,
//
//	Cpk - z sqrt( 1/(9n) + Cpk²/(2 df) )
//
// and the exact one for a one-sided specification with df = n-1: 3 sqrt(n)
// Cpk is non-central t with non-centrality 3 sqrt(n) times the true index.
// Sources: Bissell1990, Owen1968.
func CpkBounds(cpk float64, n, df int, confidence float64) (Index, error) {
	if err := inside("Cpk bound", "confidence", confidence); err != nil {
		return Index{}, err
	}
	if n < 2 || df < 1 || math.IsNaN(cpk) || math.IsInf(cpk, 0) {
		return Index{}, fmt.Errorf("stat: Cpk bound: index %g of %d values with %d degrees of freedom", cpk, n, df)
	}
	z, err := dist.NormalQuantile(confidence)
	if err != nil {
		return Index{}, err
	}
	out := Index{Value: cpk, Approx: cpk - z*math.Sqrt(1/(9*float64(n))+cpk*cpk/(2*float64(df)))}
	if df == n-1 {
		scale := 3 * math.Sqrt(float64(n))
		mu, err := dist.NoncentralityAt(scale*cpk, float64(df), confidence)
		if err != nil {
			return Index{}, err
		}
		out.Exact, out.IsExact = mu/scale, true
	}
	return out, nil
}

// CpkNeeded returns the Cpk that a sample of n must show to assert the target
// with the confidence, one-sided specification. Exact.
func CpkNeeded(n int, target, confidence float64) (float64, error) {
	if n < 2 {
		return 0, fmt.Errorf("stat: needed Cpk: %d values, want at least 2", n)
	}
	scale := 3 * math.Sqrt(float64(n))
	t, err := dist.NoncentralT{Nu: float64(n - 1), Mu: scale * target}.Quantile(confidence)
	if err != nil {
		return 0, err
	}
	return t / scale, nil
}

// CpkSampleSize returns the smallest n at which an observed Cpk asserts the
// target with the confidence; ok is false where none up to [MaxN] does.
func CpkSampleSize(observed, target, confidence float64) (n int, ok bool, err error) {
	return smallest(2, MaxN, func(n int) (bool, error) {
		need, err := CpkNeeded(n, target, confidence)
		return need <= observed, err
	})
}
