package oven

import (
	"math"
	"testing"

	"costrel/num/conduct"
	"costrel/physics/resin"
	"costrel/unit"
)

// The tube against an explicit scheme on 100 even cells and steps of 2 ms,
// which shares nothing with the solver but bands and constants.
func TestTubeExplicit(t *testing.T) {
	g, err := resin.Find("pet-carbonated")
	if err != nil {
		t.Fatal(err)
	}
	r, err := Tube{
		Outer: 0.011, Wall: 0.003, Filament: 2400, Film: 60, Air: unit.Celsius(60), Emissivity: g.Emissivity, Around: unit.Celsius(25),
		Inlet: unit.Celsius(25), Heat: 20, Soak: 6, Optics: Optics{Focus: true}, Cells: 60, Step: 0.05,
	}.HeatTo(g, unit.Celsius(103))
	if err != nil {
		t.Fatal(err)
	}
	const n, ro, ri, dt = 100, 0.011, 0.008, 0.002
	h := (ro - ri) / n
	rad := func(i int) float64 { return ri + h*float64(i) }
	rho := math.Pow(0.54/2.54, 2)
	bands := Bands()
	var T, Q, V [n]float64
	for i := range n {
		T[i] = 298.15
		V[i] = math.Pi * (math.Pow(rad(i+1), 2) - math.Pow(rad(i), 2))
		for b, k := range bands {
			lo, hi := fraction(k.From, 2400), fraction(k.To, 2400)
			if b == 0 {
				lo = 0
			}
			if b == bandCount-1 {
				hi = 1
			}
			Q[i] += r.Flux * 2 * math.Pi * ro * (1 - rho) * (hi - lo) * (math.Exp(-k.Absorption*(ro-rad(i+1))) - math.Exp(-k.Absorption*(ro-rad(i))))
		}
	}
	state := func(ts float64) [3]float64 {
		sum, vol := 0.0, 0.0
		for i := range n {
			sum += T[i] * V[i]
			vol += V[i]
		}
		return [3]float64{T[0] - 273.15, sum/vol - 273.15, ts - 273.15}
	}
	compare := func(when string, ours [3]unit.Temperature, other [3]float64) {
		for i, name := range []string{"inside", "mean", "outside"} {
			if d := ours[i].Celsius() - other[i]; math.Abs(d) > 0.15 {
				t.Errorf("%s, %s: %.2f °C, explicit scheme %.2f °C", when, name, ours[i].Celsius(), other[i])
			}
		}
	}
	steps := func(s float64) int { return int(math.Round(s / dt)) }
	for s := range steps(26) {
		ts := T[n-1]
		c := 2 * g.Conductivity / h
		for range 6 {
			e := g.Emissivity * conduct.Boltzmann
			ts += (c*(T[n-1]-ts) - 60*(ts-333.15) - e*(math.Pow(ts, 4)-math.Pow(298.15, 4))) / (c + 60 + 4*e*math.Pow(ts, 3))
		}
		var gain [n]float64
		for i := range n {
			if s < steps(20) {
				gain[i] += Q[i]
			}
			if i > 0 {
				flow := g.Conductivity * 2 * math.Pi * rad(i) / h * (T[i-1] - T[i])
				gain[i] += flow
				gain[i-1] -= flow
			}
		}
		gain[n-1] -= c * (T[n-1] - ts) * 2 * math.Pi * ro
		for i := range n {
			cp, err := resin.HeatCapacity(unit.Temperature(T[i]))
			if err != nil {
				t.Fatal(err)
			}
			T[i] += dt * gain[i] / (g.DensityAmorphous * V[i] * cp)
		}
		if s == steps(20)-1 {
			compare("after heating", r.Heated, state(ts))
		}
		if s == steps(26)-1 {
			compare("after the soak", r.Soaked, state(ts))
		}
	}
}

func TestTubeRefusals(t *testing.T) {
	g, err := resin.Find("pet-carbonated")
	if err != nil {
		t.Fatal(err)
	}
	good := Tube{Outer: 0.011, Wall: 0.003, Filament: 2400, Film: 60, Air: unit.Celsius(60), Inlet: unit.Celsius(25), Heat: 20, Soak: 6, Cells: 10, Step: 0.5}
	if _, err := good.HeatTo(g, unit.Celsius(20)); err == nil {
		t.Error("colder than the inlet passes")
	}
	for i, turn := range []func(*Tube){
		func(x *Tube) { x.Wall = 0.02 },
		func(x *Tube) { x.Heat = 0 },
		func(x *Tube) { x.Step = math.NaN() },
		func(x *Tube) { x.Cells = 0 },
		func(x *Tube) { x.Filament = 10 },
	} {
		x := good
		turn(&x)
		if _, err := x.HeatTo(g, unit.Celsius(100)); err == nil {
			t.Errorf("case %d passes", i)
		}
	}
}
