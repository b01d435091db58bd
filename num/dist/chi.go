package dist

import "math"

// scaledChi is the distribution of U = sqrt(X/nu) with X chi-squared of nu
// degrees of freedom: the ratio of a standard deviation estimated with nu
// degrees of freedom to the true one.
type scaledChi struct {
	nu   float64
	logC float64
}

func newScaledChi(nu float64) scaledChi {
	a := nu / 2
	return scaledChi{nu: nu, logC: math.Ln2 + 0.5*math.Log(a/(2*math.Pi)) - stirlingRest(a)}
}

// pdf returns the density at u > 0,
//
//	f(u) = 2 a^a/Gamma(a) u^(2a-1) exp(-a u²),  a = nu/2
//
// written with Stirling's form so that large nu loses no digits.
func (c scaledChi) pdf(u float64) float64 {
	w := u - 1
	// 1 - u² + 2 ln u
	e := -w*w - 2*(w-math.Log1p(w))
	return math.Exp(c.logC - math.Log(u) + c.nu/2*e)
}

// support returns an interval outside which less than 1e-17 of the
// probability lies. The root of a chi-squared variable is a Lipschitz
// function of normals, so its tails are no wider than normal ones.
func (c scaledChi) support() (lo, hi float64) {
	r := 9 / math.Sqrt(c.nu)
	return math.Max(0, 1-r), 1 + r
}

// stirlingRest returns ln Gamma(a) - [(a-1/2) ln a - a + ln(2 pi)/2].
func stirlingRest(a float64) float64 {
	if a < 10 {
		g, _ := math.Lgamma(a)
		return g - ((a-0.5)*math.Log(a) - a + 0.5*math.Log(2*math.Pi))
	}
	// Stirling's series; the first term left out is below 1e-13 at a = 10.
	b := 1 / (a * a)
	return (1.0/12 - b*(1.0/360-b*(1.0/1260-b*(1.0/1680-b*(1.0/1188-b*691.0/360360))))) / a
}
