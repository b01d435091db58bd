package curve

import "math"

// splineSlopes returns the derivatives with respect to the parameter t at the
// points of a spline through y(t). Natural and Tangent solve the tridiagonal
// system of the twice differentiable cubic; given ends are held where start
// or end is not nil. Monotone is the weighted harmonic mean of the adjacent
// secants (Fritsch and Butland), limited to twice the smaller one.
// Source: deBoor1978 for the cubic; FritschButland1984.
func splineSlopes(kind Spline, t, y []float64, start, end *float64) []float64 {
	if kind == Monotone {
		return MonotoneSlopes(t, y)
	}
	n := len(t)
	if n == 2 && start == nil && end == nil {
		k := (y[1] - y[0]) / (t[1] - t[0])
		return []float64{k, k}
	}
	// rows: a[i] m[i-1] + b[i] m[i] + c[i] m[i+1] = f[i]
	a, b, c, f := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	h := func(i int) float64 { return t[i+1] - t[i] }
	k := func(i int) float64 { return (y[i+1] - y[i]) / h(i) }
	b[0], c[0], f[0] = 2, 1, 3*k(0)
	if start != nil {
		b[0], c[0], f[0] = 1, 0, *start
	}
	for i := 1; i < n-1; i++ {
		a[i], b[i], c[i] = h(i), 2*(h(i-1)+h(i)), h(i-1)
		f[i] = 3 * (h(i)*k(i-1) + h(i-1)*k(i))
	}
	a[n-1], b[n-1], f[n-1] = 1, 2, 3*k(n-2)
	if end != nil {
		a[n-1], b[n-1], f[n-1] = 0, 1, *end
	}
	for i := 1; i < n; i++ {
		w := a[i] / b[i-1]
		b[i] -= w * c[i-1]
		f[i] -= w * f[i-1]
	}
	m := make([]float64, n)
	m[n-1] = f[n-1] / b[n-1]
	for i := n - 2; i >= 0; i-- {
		m[i] = (f[i] - c[i]*m[i+1]) / b[i]
	}
	return m
}

// MonotoneSlopes returns the derivatives of a cubic through y(x) that is
// monotone wherever the data are. x rises strictly and len(x) == len(y) >= 2.
//
//	1/d = [(1+a)/k_left + (2-a)/k_right]/3,  a = h_right/(h_left+h_right)
//
// where both secants k have one sign, else 0; |d| is limited to twice the
// smaller secant, so the slope of a rising cubic never falls to zero inside an
// interval. Ends take the three-point parabola under the same limit.
// Source: FritschButland1984 (interior formula); the limit of 2 is chosen for
// this project, inside the limit of 3 of FritschCarlson1980.
func MonotoneSlopes(x, y []float64) []float64 {
	n := len(x)
	d := make([]float64, n)
	k := func(i int) float64 { return (y[i+1] - y[i]) / (x[i+1] - x[i]) }
	if n == 2 {
		d[0], d[1] = k(0), k(0)
		return d
	}
	for i := 1; i < n-1; i++ {
		l, r := k(i-1), k(i)
		if l*r <= 0 {
			continue
		}
		hl, hr := x[i]-x[i-1], x[i+1]-x[i]
		a := hr / (hl + hr)
		d[i] = 3 / ((1+a)/l + (2-a)/r)
		if most := 2 * math.Min(math.Abs(l), math.Abs(r)); math.Abs(d[i]) > most {
			d[i] = math.Copysign(most, l)
		}
	}
	end := func(k0, k1, h0, h1 float64) float64 {
		e := ((2*h0+h1)*k0 - h0*k1) / (h0 + h1)
		if e*k0 <= 0 {
			// the parabola turns before the end: keep half the secant, so a
			// rising cubic goes on rising
			return k0 / 2
		}
		if math.Abs(e) > 2*math.Abs(k0) {
			return 2 * k0
		}
		return e
	}
	d[0] = end(k(0), k(1), x[1]-x[0], x[2]-x[1])
	d[n-1] = end(k(n-2), k(n-3), x[n-1]-x[n-2], x[n-2]-x[n-3])
	return d
}

// Hermite returns the value and the slope at x of the cubic through xs, ys with
// slopes ds. xs rises; outside its range the end cubic is held at the end
// value with slope of the end.
func Hermite(xs, ys, ds []float64, x float64) (y, slope float64) {
	n := len(xs)
	switch {
	case x <= xs[0]:
		return ys[0], ds[0]
	case x >= xs[n-1]:
		return ys[n-1], ds[n-1]
	}
	lo, hi := 0, n-1
	for hi-lo > 1 {
		mid := (lo + hi) / 2
		if xs[mid] <= x {
			lo = mid
		} else {
			hi = mid
		}
	}
	h := xs[hi] - xs[lo]
	u := (x - xs[lo]) / h
	k := (ys[hi] - ys[lo]) / h
	d0, d1 := ds[lo], ds[hi]
	c2, c3 := 3*k-2*d0-d1, d0+d1-2*k
	y = ys[lo] + h*u*(d0+u*(c2+u*c3))
	slope = d0 + u*(2*c2+3*u*c3)
	return y, slope
}
