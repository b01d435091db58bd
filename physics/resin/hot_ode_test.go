package resin

import (
	"math"
	"testing"

	"costrel/unit"
)

// An independent integration of the rate form: classical Runge-Kutta of fourth
// order on bond stress and network strain, steps far below the relaxation
// time, its own Edwards-Vilgis stress from the energy by central differences.
func odeBiaxial(l *GlassRubber, T, rate, mode, stretch float64, n int) float64 {
	gamma0, crit, _ := l.Slip(T, rate, mode)
	nkT := l.Links * boltzmann * T
	lin := l.BondViscosity(T)
	energy := func(e [3]float64) float64 {
		a2 := l.Alpha * l.Alpha
		Z, sum := 1.0, 0.0
		for _, x := range e {
			Z -= a2 * math.Exp(2*x)
		}
		for _, x := range e {
			u := math.Exp(2 * x)
			sum += (1+l.Eta)*(1-a2)*u/((1+l.Eta*u)*Z) + math.Log(1+l.Eta*u)
		}
		return nkT / 2 * (sum + math.Log(Z))
	}
	net := func(e1, e2 float64) (s [3]float64) {
		e := [3]float64{e1, e2, -e1 - e2}
		var mean float64
		for i := range e {
			const h = 1e-4
			d := func(k float64) float64 { f := e; f[i] += k * h; return energy(f) }
			s[i] = (8*(d(1)-d(-1)) - (d(2) - d(-2))) / (12 * h)
			mean += s[i] / 3
		}
		for i := range s {
			s[i] -= mean
		}
		return s
	}
	type state [4]float64 // e1, e2, b1, b2
	slope := func(t float64, y state) (d state) {
		lam := 1 + rate*t
		D1 := rate / lam
		D2 := mode * D1
		c := net(y[0], y[1])
		top := math.Exp(max(y[0], y[1], -y[0]-y[1]))
		k := 0.0
		if top < crit {
			k = l.SlipShare / (gamma0 * (crit - 1) / (crit - top))
		}
		d[0], d[1] = D1-k*c[0], D2-k*c[1]
		b3 := -y[2] - y[3]
		RT := unit.GasConstant * T
		oct := math.Sqrt((y[2]*y[2] + y[3]*y[3] + b3*b3) / 3)
		z := l.ShearVolume * oct / (2 * RT)
		shift := 1.0
		if z > 1e-8 {
			shift = z / math.Sinh(z)
		}
		sm := -(b3 + c[2])
		tau := lin / (2 * l.Shear) * shift * math.Exp(-l.PressureVolume*sm/RT)
		d[2], d[3] = 2*l.Shear*D1-y[2]/tau, 2*l.Shear*D2-y[3]/tau
		return d
	}
	end := (stretch - 1) / rate
	h := end / float64(n)
	var y state
	add := func(y, d state, f float64) state {
		for i := range y {
			y[i] += f * d[i]
		}
		return y
	}
	for i := range n {
		t := float64(i) * h
		k1 := slope(t, y)
		k2 := slope(t+h/2, add(y, k1, h/2))
		k3 := slope(t+h/2, add(y, k2, h/2))
		k4 := slope(t+h, add(y, k3, h))
		for j := range y {
			y[j] += h / 6 * (k1[j] + 2*k2[j] + 2*k3[j] + k4[j])
		}
	}
	c := net(y[0], y[1])
	return y[2] + y[2] + y[3] + c[0] - c[2]
}

func TestAgainstRungeKutta(t *testing.T) {
	for i, l := range []GlassRubber{SetA(), SetB()} {
		for _, c := range []struct{ T, rate, mode, stretch float64 }{
			{95, 32, 1, 3}, {100, 32, 0, 3}, {105, 16, 0.5, 2.5}, {90, 8, 1, 1.1}, {100, 8, 1, 3}, {105, 8, -0.5, 2},
		} {
			if testing.Short() && (i == 1 || c.rate < 16) {
				continue
			}
			T := c.T + 273.15
			n := int(math.Ceil((c.stretch - 1) / c.rate / 8e-6))
			want := odeBiaxial(&l, T, c.rate, c.mode, c.stretch, n)
			if coarse := odeBiaxial(&l, T, c.rate, c.mode, c.stretch, n*3/4); math.Abs(want/coarse-1) > 1e-5 {
				t.Fatalf("the reference has not settled: %g, %g", want, coarse)
			}
			got := pullTo(t, &l, c.T, c.rate, c.mode, c.stretch, 5e-4)
			dev := got/want - 1
			t.Logf("%s %g °C %g 1/s mode %g stretch %g: %.4f MPa, Runge-Kutta %.4f (%+.3f %%)", l.ID, c.T, c.rate, c.mode, c.stretch, got/1e6, want/1e6, 100*dev)
			if math.Abs(dev) > 2e-3 {
				t.Errorf("off by %.3f %%", 100*dev)
			}
		}
	}
}
