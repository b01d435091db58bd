package oven

import (
	"math"
	"strings"
	"testing"

	"costrel/unit"
)

func TestImposed(t *testing.T) {
	p, g := parts(t)
	card := Card{Inside: unit.Celsius(103), Mean: unit.Celsius(105.5), Outside: unit.Celsius(107), Tilt: 6}
	f, err := Imposed(p, Grid{Slices: 40, Cells: 24}, card)
	if err != nil {
		t.Fatal(err)
	}
	if d := f.Average() - card.Mean; math.Abs(float64(d)) > 1e-9 {
		t.Errorf("average off by %g K", float64(d))
	}
	n := len(f.S) - 1
	rise := (f.Mean[0] - f.Mean[n]) / (f.S[n] - f.S[0]) * p.ArcLength()
	if math.Abs(rise-6) > 1e-9 {
		t.Errorf("tilt %g K, want 6", rise)
	}
	for i := range f.S {
		if math.Abs(f.Outside[i]-f.Inside[i]-4) > 1e-9 {
			t.Fatalf("slice %d: faces %g K apart", i, f.Outside[i]-f.Inside[i])
		}
		sum := 0.0
		for k, v := range f.Volume[i] {
			sum += v * f.T[i][k]
		}
		if math.Abs(sum-f.Mean[i]) > 1e-9 {
			t.Fatalf("slice %d: cells average %g, mean %g", i, sum, f.Mean[i])
		}
	}
	s := f.S[20]
	if f.At(s, 0) != unit.Temperature(f.Inside[20]) || math.Abs(float64(f.At(s, 1))-f.Outside[20]) > 1e-12 || f.At(-1, 0) != unit.Temperature(f.Inside[0]) || f.At(9, 1) != unit.Temperature(f.Outside[n]) {
		t.Error("the faces are not read back")
	}
	if d := float64(f.MeanAt(s)) - f.Mean[20]; math.Abs(d) > 1e-12 {
		t.Error("the mean is not read back")
	}
	layers := make([]float64, 5)
	f.Layers(s, layers)
	for k := 1; k < 5; k++ {
		if layers[k] <= layers[k-1] {
			t.Errorf("layers %v do not rise", layers)
		}
	}
	one := make([]float64, 1)
	f.Layers(s, one)
	if math.Abs(one[0]-f.Mean[20]) > 1e-9 {
		t.Errorf("one layer %g, mean %g", one[0], f.Mean[20])
	}
	slices, err := Slices(p, 40)
	if err != nil {
		t.Fatal(err)
	}
	warn, err := Judge(f, slices, g)
	if err != nil || len(warn) != 0 {
		t.Errorf("judged %q, %v", warn, err)
	}
	card.Inside, card.Mean, card.Outside = unit.Celsius(112), unit.Celsius(118), unit.Celsius(125)
	f, err = Imposed(p, Grid{Slices: 40, Cells: 24}, card)
	if err != nil {
		t.Fatal(err)
	}
	warn, err = Judge(f, slices, g)
	if text := strings.Join(warn, "\n"); err != nil || !strings.Contains(text, "trade limit") || !strings.Contains(text, "flows") {
		t.Errorf("judged %q, %v", warn, err)
	}
	card.Inside, card.Mean, card.Outside, card.Tilt = unit.Celsius(70), unit.Celsius(70), unit.Celsius(70), 0
	f, _ = Imposed(p, Grid{Slices: 40, Cells: 24}, card)
	if _, err = Judge(f, slices, g); err == nil {
		t.Error("70 °C passes")
	}
	if _, err = Judge(f, slices[1:], g); err == nil {
		t.Error("a field of other slices passes")
	}
}

// A bow lowers the middle against the ends and leaves the mean.
func TestImposedBow(t *testing.T) {
	p, _ := parts(t)
	c := unit.Celsius
	f, err := Imposed(p, Grid{Slices: 40, Cells: 24}, Card{Inside: c(103), Mean: c(105), Outside: c(107), Bow: -8})
	if err != nil {
		t.Fatal(err)
	}
	all := p.ArcLength()
	ends := float64(f.MeanAt(0)+f.MeanAt(all)) / 2
	if got := float64(f.MeanAt(all/2)) - ends; math.Abs(got+8) > 0.5 { // ends are the middles of the last slices
		t.Errorf("bow %.3f K, want -8", got)
	}
	if got := f.Average().Celsius(); math.Abs(got-105) > 1e-9 {
		t.Errorf("mean %.6f °C, want 105", got)
	}
}

// A skew warms a place at 0.21 of the way from the neck and cools its opposite by as
// much, and leaves middle, ends and mean of the mass.
func TestImposedSkew(t *testing.T) {
	p, _ := parts(t)
	c := unit.Celsius
	at := func(skew unit.TemperatureDiff) *Field {
		f, err := Imposed(p, Grid{Slices: 80, Cells: 24}, Card{Inside: c(103), Mean: c(105), Outside: c(107), Tilt: -6, Skew: skew})
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	f, flat := at(5), at(0)
	all := p.ArcLength()
	by := func(x float64) float64 { return float64(f.MeanAt(all*(1-x)) - flat.MeanAt(all*(1-x))) }
	upper := (1 - 1/math.Sqrt(3)) / 2
	if a, b := by(upper)-by(0.5), by(1-upper)-by(0.5); math.Abs(a-5) > 0.02 || math.Abs(b+5) > 0.02 {
		t.Errorf("skew %.3f and %.3f K, want 5 and -5", a, b)
	}
	if got := f.Average().Celsius(); math.Abs(got-105) > 1e-9 {
		t.Errorf("mean %.6f °C, want 105", got)
	}
}

func TestImposedRefusals(t *testing.T) {
	p, _ := parts(t)
	c := unit.Celsius
	for _, k := range []struct {
		g    Grid
		card Card
		text string
	}{
		{Grid{40, 24, 0}, Card{c(20), c(100), c(100), 0, 0, 0}, "inside"},
		{Grid{40, 24, 0}, Card{c(100), c(120), c(100), 0, 0, 0}, "8 K outside"},
		{Grid{40, 24, 0}, Card{c(100), c(100), unit.Temperature(math.NaN()), 0, 0, 0}, "outside"},
		{Grid{40, 24, 0}, Card{c(100), c(100), c(100), 80, 0, 0}, "tilt"},
		{Grid{40, 24, 0}, Card{c(100), c(100), c(100), 0, -60, 0}, "bow"},
		{Grid{40, 24, 0}, Card{c(100), c(100), c(100), 0, 0, 40}, "skew"},
		{Grid{40, 2, 0}, Card{c(100), c(100), c(100), 0, 0, 0}, "cells"},
		{Grid{4, 24, 0}, Card{c(100), c(100), c(100), 0, 0, 0}, "slices"},
	} {
		if _, err := Imposed(p, k.g, k.card); err == nil || !strings.Contains(err.Error(), k.text) {
			t.Errorf("want %q: %v", k.text, err)
		}
	}
}
