package sample

import (
	"fmt"
	"math"

	"costrel/num/dist"

	"github.com/cwbudde/qmc"
)

// MaxPoints and MaxDims bound a sample.
const (
	MaxPoints = 1 << 20
	MaxDims   = 200
)

// Normal returns n points of dims independent standard normal scores: a Sobol
// sequence scrambled after Owen by the seed, through the normal quantile. They
// fill the space more evenly than random numbers; powers of two fill it best.
// Source: Owen1998 for the scrambling (from memory).
func Normal(n, dims int, seed uint64) ([][]float64, error) {
	if n < 1 || n > MaxPoints {
		return nil, fmt.Errorf("sample: %d points outside 1..%d", n, MaxPoints)
	}
	if dims < 1 || dims > MaxDims {
		return nil, fmt.Errorf("sample: %d inputs outside 1..%d", dims, MaxDims)
	}
	g, err := qmc.NewSobol(dims, qmc.WithOwenScrambling(seed))
	if err != nil {
		return nil, fmt.Errorf("sample: %w", err)
	}
	all := make([]float64, n*dims)
	out := make([][]float64, n)
	for i := range out {
		row := all[i*dims : (i+1)*dims : (i+1)*dims]
		g.AtInto(i, row)
		for j, u := range row {
			// The middle of the cell of 32 bits: never 0 or 1.
			u = (math.Floor(u*(1<<32)) + 0.5) / (1 << 32)
			if row[j], err = dist.NormalQuantile(u); err != nil {
				return nil, fmt.Errorf("sample: %w", err)
			}
		}
		out[i] = row
	}
	return out, nil
}
