package stat

import (
	"fmt"
	"math"

	"costrel/num/dist"
)

// Line is a straight line y = Intercept + Slope x by least squares.
type Line struct {
	Intercept, Slope     float64
	InterceptSE, SlopeSE float64
	S                    float64 // residual standard deviation
	R2                   float64
	N                    int
	MeanX, SSX           float64
	MinX, MaxX           float64
}

// FitLine returns the least-squares line through at least three points with
// at least two different x. Checked with NIST1998 Norris.
func FitLine(x, y []float64) (Line, error) {
	if len(x) != len(y) {
		return Line{}, fmt.Errorf("stat: line: %d x and %d y", len(x), len(y))
	}
	if err := finite("line: x", x, 3); err != nil {
		return Line{}, err
	}
	if err := finite("line: y", y, 3); err != nil {
		return Line{}, err
	}
	sx, err := Summarize(x)
	if err != nil {
		return Line{}, err
	}
	sy, err := Summarize(y)
	if err != nil {
		return Line{}, err
	}
	if sx.Min == sx.Max {
		return Line{}, fmt.Errorf("stat: line: all x are %g", sx.Min)
	}
	n := float64(len(x))
	var sxy, ssx float64
	for i := range x {
		dx := x[i] - sx.Mean
		ssx += dx * dx
		sxy += dx * (y[i] - sy.Mean)
	}
	out := Line{N: len(x), MeanX: sx.Mean, SSX: ssx, MinX: sx.Min, MaxX: sx.Max, Slope: sxy / ssx}
	out.Intercept = sy.Mean - out.Slope*sx.Mean
	var ssr float64
	for i := range x {
		r := y[i] - sy.Mean - out.Slope*(x[i]-sx.Mean)
		ssr += r * r
	}
	out.S = math.Sqrt(ssr / (n - 2))
	out.SlopeSE = out.S / math.Sqrt(ssx)
	out.InterceptSE = out.S * math.Sqrt(1/n+sx.Mean*sx.Mean/ssx)
	if sst := sy.S * sy.S * (n - 1); sst > 0 {
		out.R2 = 1 - ssr/sst
	} else {
		out.R2 = 1
	}
	return out, nil
}

// At returns the value of the line at x with the confidence interval of the
// mean there and the prediction interval of one further reading, two-sided at
// the confidence.
func (l Line) At(x, confidence float64) (value, meanHalf, readingHalf float64, err error) {
	if err := inside("line", "confidence", confidence); err != nil {
		return 0, 0, 0, err
	}
	t, err := dist.StudentQuantile((1+confidence)/2, float64(l.N-2))
	if err != nil {
		return 0, 0, 0, err
	}
	d := x - l.MeanX
	v := 1/float64(l.N) + d*d/l.SSX
	return l.Intercept + l.Slope*x, t * l.S * math.Sqrt(v), t * l.S * math.Sqrt(1+v), nil
}
