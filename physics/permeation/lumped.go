package permeation

import (
	"errors"
	"fmt"
)

// Part is a piece of a wall beside others.
type Part struct {
	Area, Thickness float64 // [m²], [m], more than 0
	Material        Material
}

// Lumped returns one zone that stands for parts side by side whose materials
// differ in amount only, as those of [Local]. With A the sum of the areas:
//
//	thickness     L = A / sum of A_i/L_i
//	solubility    S = sum of A_i L_i S_i / sum of A_i L_i   (of kD and C'H each)
//	diffusivity   D = sum of A_i/L_i D_i S_i / (A/L S)
//	permeability  P = sum of A_i/L_i P_i / (A/L)            (O2, N2, water)
//
// so that it passes in steady state as much as its parts, carbon dioxide by
// the Henry part of its sorption, and holds per volume what they hold on
// average. Errors: no parts, parts that are not more than nothing, and
// materials that differ in more than amount.
func Lumped(name string, parts []Part) (WallZone, error) {
	if len(parts) == 0 {
		return WallZone{}, errors.New("permeation: lumped: no parts")
	}
	m := parts[0].Material
	var area, passes, volume float64
	var henry, capacity, slow float64
	var gas [2]struct{ p, d, s float64 }
	var water float64
	for i, q := range parts {
		if !(q.Area > 0) || !(q.Thickness > 0) {
			return WallZone{}, fmt.Errorf("permeation: lumped: part %d: area ‹%g cm²› and thickness ‹%g mm›, want more than 0", i+1, q.Area*1e4, q.Thickness*1e3)
		}
		if !alike(m, q.Material) {
			return WallZone{}, fmt.Errorf("permeation: lumped: part %d (%s) follows other laws than %s", i+1, q.Material.Name, m.Name)
		}
		g, v := q.Area/q.Thickness, q.Area*q.Thickness
		area, passes, volume = area+q.Area, passes+g, volume+v
		henry += v * q.Material.CO2.Henry.Value
		capacity += v * q.Material.CO2.Capacity
		slow += g * q.Material.CO2.Diffusivity.Value * q.Material.CO2.Henry.Value
		for k, h := range [...]Henry{q.Material.Oxygen, q.Material.Nitrogen} {
			gas[k].p += g * h.Permeability.Value
			gas[k].s += v * h.Permeability.Value / h.Diffusivity.Value
		}
		water += g * q.Material.Water.Value
	}
	m.Name = name
	m.CO2.Henry.Value, m.CO2.Capacity = henry/volume, capacity/volume
	m.CO2.Diffusivity.Value = slow / (passes * m.CO2.Henry.Value)
	for k, h := range [...]*Henry{&m.Oxygen, &m.Nitrogen} {
		h.Permeability.Value = gas[k].p / passes
		h.Diffusivity.Value = h.Permeability.Value * volume / gas[k].s
	}
	m.Water.Value = water / passes
	return WallZone{Name: name, Area: area, Thickness: area / passes, Material: m}, nil
}

// alike tells whether two materials differ in amounts alone.
func alike(a, b Material) bool {
	for _, m := range [...]*Material{&a, &b} {
		m.Name, m.Title = "", ""
		m.CO2.Henry.Value, m.CO2.Capacity, m.CO2.Diffusivity.Value, m.Water.Value = 0, 0, 0, 0
		for _, h := range [...]*Henry{&m.Oxygen, &m.Nitrogen} {
			h.Permeability.Value, h.Diffusivity.Value = 0, 0
		}
	}
	return a == b && !a.Tight
}
