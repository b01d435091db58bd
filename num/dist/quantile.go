package dist

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mathext"
)

// ChiSquaredQuantile returns x with P(chi²(nu) <= x) = p for 0 < p < 1 and
// nu > 0.
func ChiSquaredQuantile(p, nu float64) (float64, error) {
	if !(p > 0 && p < 1) || !(nu > 0) || math.IsInf(nu, 0) {
		return 0, fmt.Errorf("dist: chi-squared quantile: probability %g, degrees of freedom %g", p, nu)
	}
	a := nu / 2
	start := math.Log(math.Max(mathext.GammaIncRegInv(a, p), 1e-300))
	if math.IsNaN(start) {
		start = math.Log(a)
	}
	logX, err := solve("chi-squared quantile", func(y float64) float64 {
		if p <= 0.5 {
			return math.Log(math.Max(mathext.GammaIncReg(a, math.Exp(y)), 1e-300)) - math.Log(p)
		}
		return math.Log(1-p) - math.Log(math.Max(mathext.GammaIncRegComp(a, math.Exp(y)), 1e-300))
	}, start, 1e-6)
	if err != nil {
		return 0, err
	}
	return 2 * math.Exp(logX), nil
}

// BetaQuantile returns x with I_x(a,b) = p for 0 < p < 1, a > 0, b > 0.
func BetaQuantile(p, a, b float64) (float64, error) {
	if !(p > 0 && p < 1) || !(a > 0) || !(b > 0) || math.IsInf(a, 0) || math.IsInf(b, 0) {
		return 0, fmt.Errorf("dist: beta quantile: probability %g, parameters %g and %g", p, a, b)
	}
	// In the logit of x both ends are far away.
	at := func(y float64) (x, rest float64) {
		if y < 0 {
			e := math.Exp(y)
			return e / (1 + e), 1 / (1 + e)
		}
		e := math.Exp(-y)
		return 1 / (1 + e), e / (1 + e)
	}
	x0 := mathext.InvRegIncBeta(a, b, p)
	if !(x0 > 0 && x0 < 1) {
		x0 = a / (a + b)
	}
	y, err := solve("beta quantile", func(y float64) float64 {
		x, rest := at(y)
		if p <= 0.5 {
			return math.Log(math.Max(mathext.RegIncBeta(a, b, x), 1e-300)) - math.Log(p)
		}
		return math.Log(1-p) - math.Log(math.Max(mathext.RegIncBeta(b, a, rest), 1e-300))
	}, math.Log(x0/(1-x0)), 1e-6)
	if err != nil {
		return 0, err
	}
	x, _ := at(y)
	return x, nil
}

// StudentCDF returns P(T <= t) of Student's t with nu > 0 degrees of freedom.
func StudentCDF(t, nu float64) (float64, error) {
	if !(nu > 0) || math.IsNaN(t) {
		return 0, fmt.Errorf("dist: Student t: argument %g, degrees of freedom %g", t, nu)
	}
	if math.IsInf(nu, 1) {
		return NormalCDF(t), nil
	}
	var tail float64 // P(T > |t|)
	if t2 := t * t; t2 < nu {
		tail = 0.5 - 0.5*mathext.RegIncBeta(0.5, nu/2, t2/(nu+t2))
	} else {
		tail = 0.5 * mathext.RegIncBeta(nu/2, 0.5, nu/(nu+t2))
	}
	if t > 0 {
		return 1 - tail, nil
	}
	return tail, nil
}

// StudentQuantile returns t with P(T <= t) = p of Student's t with nu > 0
// degrees of freedom.
func StudentQuantile(p, nu float64) (float64, error) {
	if !(p > 0 && p < 1) || !(nu > 0) || math.IsInf(nu, 0) {
		return 0, fmt.Errorf("dist: Student t quantile: probability %g, degrees of freedom %g", p, nu)
	}
	if p == 0.5 {
		return 0, nil
	}
	// nu/(nu+t²) is beta distributed.
	x, err := BetaQuantile(2*math.Min(p, 1-p), nu/2, 0.5)
	if err != nil {
		return 0, err
	}
	t := math.Sqrt(nu * (1 - x) / x)
	if x > 0.5 { // near the centre 1-x is the better conditioned side
		y, err := BetaQuantile(1-2*math.Min(p, 1-p), 0.5, nu/2)
		if err != nil {
			return 0, err
		}
		t = math.Sqrt(nu * y / (1 - y))
	}
	if p < 0.5 {
		t = -t
	}
	return t, nil
}

// FSurvival returns P(F > f) of Fisher's F with d1 and d2 degrees of freedom.
func FSurvival(f, d1, d2 float64) (float64, error) {
	if !(d1 > 0) || !(d2 > 0) || math.IsNaN(f) {
		return 0, fmt.Errorf("dist: F: argument %g, degrees of freedom %g and %g", f, d1, d2)
	}
	if f <= 0 {
		return 1, nil
	}
	if math.IsInf(f, 1) {
		return 0, nil
	}
	return mathext.RegIncBeta(d2/2, d1/2, d2/(d2+d1*f)), nil
}
