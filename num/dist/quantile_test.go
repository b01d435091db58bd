package dist

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got float64, err error, want, rel float64) {
	t.Helper()
	if err != nil {
		t.Errorf("%s: %v", what, err)
		return
	}
	if math.Abs(got-want) > rel*math.Abs(want) {
		t.Errorf("%s = %.15g, want %.15g", what, got, want)
	}
}

// Values by 30-digit root finding on the incomplete beta and gamma functions.
func TestQuantiles(t *testing.T) {
	for _, c := range []struct{ p, nu, want float64 }{
		{0.05, 11, 4.57481307932222},
		{0.05, 29, 17.7083661828246},
		{0.001, 1, 1.57079714926249e-6},
		{0.95, 4, 9.48772903678116},
		{0.5, 199, 198.333731838417},
	} {
		x, err := ChiSquaredQuantile(c.p, c.nu)
		near(t, "chi-squared", x, err, c.want, 1e-12)
	}
	for _, c := range []struct{ p, nu, want float64 }{
		{0.95, 10, 1.81246112281168},
		{0.05, 10, -1.81246112281168},
		{0.975, 34, 2.03224450931772},
		{0.9979166666666667, 10, 3.69147838713927},
		{0.999, 2, 22.3271247701199},
		{0.6, 5, 0.267180865704145},
	} {
		x, err := StudentQuantile(c.p, c.nu)
		near(t, "Student t", x, err, c.want, 1e-11)
		p, err := StudentCDF(c.want, c.nu)
		near(t, "Student probability", p, err, c.p, 1e-11)
	}
	for _, c := range []struct{ p, want float64 }{
		{1e-10, -6.361340902404056}, {0.001, -3.090232306167814}, {0.3, -0.5244005127080408}, {0.999, 3.090232306167814},
	} {
		z, err := NormalQuantile(c.p)
		near(t, "normal", z, err, c.want, 1e-14)
	}
	p, err := FSurvival(1.18046237440255, 4, 20)
	near(t, "F", p, err, 0.349447493402193, 1e-12)
}

func TestFractionLimits(t *testing.T) {
	for _, c := range []struct {
		x, n int
		want float64
	}{
		{0, 24, 0.117346156154949},
		{1, 24, 0.182892469755646},
		{0, 60, 0.0487029133100975},
		{1, 12, 0.338680668434032},
		{0, 12, 0.220922191945556},
		{3, 200, 0.0383097084985693},
	} {
		u, err := FractionUpper(c.x, c.n, 0.95)
		near(t, "upper limit", u, err, c.want, 1e-11)
		// At the limit x or fewer failures have probability 0.05.
		p, err := BinomialCDF(c.x, c.n, u)
		near(t, "probability at the limit", p, err, 0.05, 1e-9)
		// Mirror: the lower limit on the passing fraction.
		l, err := FractionLower(c.n-c.x, c.n, 0.95)
		near(t, "lower limit", 1-l, err, c.want, 1e-11)
	}
	if u, err := FractionUpper(7, 7, 0.95); err != nil || u != 1 {
		t.Errorf("all fail: %g, %v", u, err)
	}
	if _, err := FractionUpper(3, 2, 0.95); err == nil {
		t.Error("3 of 2: no error")
	}
}

func TestEdges(t *testing.T) {
	if _, err := BetaQuantile(0, 1, 1); err == nil {
		t.Error("beta quantile of 0: no error")
	}
	x, err := BetaQuantile(0.3, 1, 1)
	near(t, "uniform", x, err, 0.3, 1e-13)
	if _, err := ChiSquaredQuantile(0.5, 0); err == nil {
		t.Error("no degrees of freedom: no error")
	}
	p, err := StudentCDF(1.3, math.Inf(1))
	near(t, "Student at the limit", p, err, NormalCDF(1.3), 1e-15)
	if z, err := NormalQuantile(0.5); err != nil || z != 0 {
		t.Errorf("median: %g, %v", z, err)
	}
	if _, err := NormalQuantile(1); err == nil {
		t.Error("normal quantile of 1: no error")
	}
}
