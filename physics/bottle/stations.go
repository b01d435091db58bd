package bottle

import "fmt"

// Stations are places along the outer profile from the gate to the ledge, one
// value each.
type Stations struct {
	S, Z, R   []float64 // arc length, height, radius [m]
	TZ, TR    []float64 // unit tangent
	NZ, NR    []float64 // unit normal, outward
	K1, K2    []float64 // meridional and circumferential curvature [1/m], positive where convex
	Area      []float64 // outer surface from the gate [m²]
	AreaRatio []float64 // local surface of the real base over the averaged one
}

// Stations returns n places along the profile, at least 2. Rows of the table
// are among them when n allows; there tangent and normal are those of the
// bisector and K1 is the mean of both sides (see [curve.Meridian.At]).
func (b *Bottle) Stations(n int) (Stations, error) {
	at, err := b.outline.Stations(n)
	if err != nil {
		return Stations{}, fmt.Errorf("bottle: %w", err)
	}
	return b.StationsAt(at), nil
}

// StationsAt returns the stations at the given arc lengths [m], which are held
// inside 0..ArcLength.
func (b *Bottle) StationsAt(at []float64) Stations {
	n := len(at)
	block := make([]float64, 11*n)
	next := func() []float64 {
		x := block[:n:n]
		block = block[n:]
		return x
	}
	q := Stations{
		S: next(), Z: next(), R: next(), TZ: next(), TR: next(), NZ: next(), NR: next(),
		K1: next(), K2: next(), Area: next(), AreaRatio: next(),
	}
	for i, s := range at {
		f := b.outline.At(s)
		q.S[i], q.Z[i], q.R[i] = f.S, f.Z, f.R
		q.TZ[i], q.TR[i], q.NZ[i], q.NR[i] = f.TZ, f.TR, f.NZ, f.NR
		q.K1[i], q.K2[i] = f.K1, f.K2
		q.Area[i] = b.outline.To(s).Area()
		q.AreaRatio[i] = b.base.ratio(f.S, f.R)
	}
	return q
}
