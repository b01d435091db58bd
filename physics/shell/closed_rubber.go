package shell

import (
	"fmt"
	"math"
)

// NeoHookeSphere returns the pressure [Pa] in a thick sphere a..b of shear
// modulus mu when the bore has stretched by la.
//
//	p = μ/2 [4/λb + 1/λb⁴ - 4/λa - 1/λa⁴]   with λb³ = 1 + (λa³-1)(a/b)³
//
// Source: Treloar1975 for the law; derived again for this project.
func NeoHookeSphere(mu, a, b, la float64) (float64, error) {
	if err := positive("sphere of rubber", "mu, a, b-a, stretch", mu, a, b-a, la); err != nil {
		return 0, err
	}
	lb := math.Cbrt(1 + (la*la*la-1)*math.Pow(a/b, 3))
	return mu / 2 * (4/lb + math.Pow(lb, -4) - 4/la - math.Pow(la, -4)), nil
}

// NeoHookeBalloon returns the largest pressure [Pa] a thin sphere of rubber
// holds and the stretch there, λ = 7^(1/6).
//
//	p = 2 μ (t/r) (1/λ - 1/λ⁷)
func NeoHookeBalloon(mu, r, t float64) (p, stretch float64, err error) {
	if err := positive("balloon", "mu, r, t", mu, r, t); err != nil {
		return 0, 0, err
	}
	l := math.Pow(7, 1.0/6)
	return 2 * mu * t / r * (1/l - math.Pow(l, -7)), l, nil
}

// YeohTube returns the pressure [Pa] in a thick tube a..b held at its length,
// of Yeoh's law W = C1 J + C2 J² + C3 J³ (J = I1 - 3), when the bore has
// stretched by la. By Gauss quadrature over the wall.
//
//	p = ∫ (λ² - 1/λ²) 2 W'(J) dr/r,  J = λ² + 1/λ² - 2
func YeohTube(c1, c2, c3, a, b, la float64) (float64, error) {
	if err := positive("tube of rubber", "C1, a, b-a, stretch", c1, a, b-a, la); err != nil {
		return 0, err
	}
	if la < 1 {
		return 0, fmt.Errorf("shell: tube of rubber: stretch %g below 1", la)
	}
	// Over the unloaded radius R: r² = R² + a² (la² - 1), dr/r = R dR/r².
	x := [...]float64{0.1488743389816312, 0.4333953941292472, 0.6794095682990244, 0.8650633666889845, 0.9739065285171717}
	w := [...]float64{0.2955242247147529, 0.2692667193099963, 0.2190863625159820, 0.1494513491505806, 0.0666713443086881}
	f := func(R float64) float64 {
		r2 := R*R + a*a*(la*la-1)
		l2 := r2 / (R * R)
		J := l2 + 1/l2 - 2
		return 2 * (c1 + 2*c2*J + 3*c3*J*J) * (l2 - 1/l2) * R / r2
	}
	s := 0.0
	for i := range x {
		for _, sign := range [2]float64{-1, 1} {
			s += w[i] * f(0.5*(a+b)+sign*0.5*(b-a)*x[i])
		}
	}
	return 0.5 * (b - a) * s, nil
}
