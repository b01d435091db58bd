package run

import (
	"costrel/physics/drink"
	"costrel/unit"
)

// at returns the gauge pressure of the pack at a temperature.
func (p *Pressures) at(t unit.Temperature) (unit.GaugePressure, error) {
	if p.Open {
		q, err := p.Liquid.Open(t, p.SaleAmbient)
		return q.Gauge, err
	}
	var st drink.State
	st, err := closed(p.Liquid, p.Pack, t, p.SaleAmbient)
	return st.Gauge, err
}

// sealed returns the gauge pressure of the closed pack at a temperature, and
// its slope, against the volume the bottle gains: gas leaves the drink for the
// room, in balance.
func (p *Pressures) sealed(t unit.Temperature) (func(gain float64) (float64, float64), error) {
	pack := p.Pack
	pack.Growth = 0
	contents, err := pack.Contents(p.Liquid)
	if err != nil {
		return nil, err
	}
	const parts, most = 40, 0.4
	v, q := make([]float64, parts+1), make([]float64, parts+1)
	for i := range v {
		v[i] = most * pack.Brimful * float64(i) / parts
		vessel := pack.Vessel(t)
		vessel.Volume += v[i]
		vessel.Ambient = p.SaleAmbient
		st, err := p.Liquid.Equilibrium(contents, vessel, t)
		if err != nil {
			return nil, err
		}
		q[i] = float64(st.Gauge)
	}
	step := v[1]
	return func(gain float64) (float64, float64) {
		i := min(max(int(gain/step), 0), parts-1)
		slope := (q[i+1] - q[i]) / step
		return q[i] + slope*(gain-v[i]), slope
	}, nil
}
