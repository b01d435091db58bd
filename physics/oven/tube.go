package oven

import (
	"fmt"
	"math"

	"costrel/num/conduct"
	"costrel/num/root"
	"costrel/physics/resin"
	"costrel/unit"
)

// Tube is a preform body by itself in a known even light: the case by which
// the heating of a wall is checked without lamps.
type Tube struct {
	Outer, Wall float64          // outer radius and wall [m]
	Filament    unit.Temperature // the light is that of a black body
	Film        float64          // heat transfer of the outer face [W/(m² K)]
	Air         unit.Temperature // outside
	Emissivity  float64          // of the outer face
	Around      unit.Temperature // surroundings that radiate back
	Inside      float64          // heat transfer of the inner face to air at Air [W/(m² K)]
	Inlet       unit.Temperature
	Heat, Soak  float64 // time in the light and after it [s]
	Optics      Optics
	Cells       int
	Step        float64 // s
}

// TubeResult is the tube at the end of heating and of the soak.
type TubeResult struct {
	Flux     float64 // that falls on the outer face [W/m²]
	Absorbed float64 // share of it
	// inner face, mean, outer face [K]
	Heated, Soaked [3]unit.Temperature
}

// HeatTo finds the flux of light that brings the tube to the mean temperature
// want after the soak, for the resin g, and returns what then happens.
func (t Tube) HeatTo(g resin.Grade, want unit.Temperature) (TubeResult, error) {
	if !(want > t.Inlet && want.Celsius() < 200) {
		return TubeResult{}, fmt.Errorf("oven: tube: mean ‹%.4g °C› outside ‹%.4g..200 °C›", want.Celsius(), t.Inlet.Celsius())
	}
	if !(t.Outer > t.Wall && t.Wall > 0 && t.Heat > 0 && t.Soak >= 0 && t.Step > 0) {
		return TubeResult{}, fmt.Errorf("oven: tube: radius ‹%g m›, wall ‹%g m›, heating %g s, soak %g s, step %g s: want wall below radius and times above 0", t.Outer, t.Wall, t.Heat, t.Soak, t.Step)
	}
	st, err := stuff(g, g.DensityAmorphous)
	if err != nil {
		return TubeResult{}, err
	}
	rm := t.Outer - t.Wall/2
	w, err := conduct.NewWall(t.Wall, 1/rm, 0, t.Cells, grading)
	if err != nil {
		return TubeResult{}, err
	}
	index, err := resin.RefractiveIndex(2e-6)
	if err != nil {
		return TubeResult{}, err
	}
	rho, err := resin.Reflectance(index)
	if err != nil {
		return TubeResult{}, err
	}
	spectrum, err := BlackBody(float64(t.Filament), 0, math.Inf(1))
	if err != nil {
		return TubeResult{}, err
	}
	source := make([]float64, t.Cells)
	outer := w.Area[t.Cells]
	for b := range spectrum {
		spectrum[b] *= (1 - rho) * outer // of 1 W/m² that falls
	}
	l := absorb(Bands(), w, spectrum, rho, t.Optics, source)
	v := conduct.NewSolver(w, &st, float64(t.Inlet))
	v.Outer = conduct.Side{Film: t.Film, Fluid: float64(t.Air), Emissivity: t.Emissivity, Surrounding: float64(t.Around)}
	v.Inner = conduct.Side{Film: t.Inside, Fluid: float64(t.Air)}
	q := make([]float64, t.Cells)
	r := TubeResult{Absorbed: l.absorbed / outer}
	state := func() [3]unit.Temperature {
		v.Refresh()
		return [3]unit.Temperature{unit.Temperature(v.TI), unit.Temperature(w.Mean(v.T)), unit.Temperature(v.TO)}
	}
	run := func(flux float64) float64 {
		v.Reset(w, &st, float64(t.Inlet))
		for i := range q {
			q[i] = flux * source[i]
		}
		v.Source = q
		if e := v.Run(t.Heat, int(math.Ceil(t.Heat/t.Step))); e != nil {
			err = e
			return math.NaN()
		}
		r.Flux, r.Heated = flux, state()
		v.Source = nil
		if t.Soak > 0 {
			if e := v.Run(t.Soak, int(math.Ceil(t.Soak/t.Step))); e != nil {
				err = e
				return math.NaN()
			}
		}
		r.Soaked = state()
		return float64(r.Soaked[1] - want)
	}
	flux, rerr := root.Brent(run, 0, 1e6, 0.1)
	if err != nil {
		return TubeResult{}, err
	}
	if rerr != nil {
		return TubeResult{}, fmt.Errorf("oven: tube: no light up to 1000 kW/m² brings ‹%.4g °C›: %w", want.Celsius(), rerr)
	}
	run(flux)
	return r, nil
}
