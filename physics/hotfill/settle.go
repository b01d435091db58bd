package hotfill

import (
	"fmt"

	"costrel/num/root"
)

// Air is what the liquid takes up of the headspace gas.
type Air struct {
	Water float64 // kg of water per kg of liquid, 0..1
	// Solubility in water at the temperature of the store [mol/(kg Pa)].
	OxygenSolubility, NitrogenSolubility float64
	// Oxygen and Nitrogen already dissolved at closing [kg per m³ of liquid at
	// closing].
	Oxygen, Nitrogen float64
}

// airOxygen is the share of oxygen in dry air; the rest counts as nitrogen.
const (
	airOxygen  = 0.2095
	oxygenMass = 31.9988e-3 // kg/mol
)

// Settle returns the cooled pack when the headspace gas has come to
// equilibrium with the liquid, days after filling: a deaerated drink takes up
// most of the little air left, and the vacuum deepens.
//
//	P = pw + sum of n_i / (m_w k_i + Vg(P)/(R T))
//
// for oxygen and nitrogen, n_i dissolved and in the headspace together, k_i
// solubility, m_w water, Vg the gas space of [Cool]. One root in P, by Brent's
// rule. Where the gas dissolves altogether the liquid fills the bottle and the
// wall sets the pressure, with a warning. Oxygen that the drink consumes is not
// taken off. Refusals as in Cool.
func Settle(p Pack, st Store, a Air) (State, error) {
	c, err := p.close(st)
	if err != nil {
		return State{}, err
	}
	m, err := c.mixture(a)
	if err != nil {
		return State{}, err
	}
	space := func(press float64) float64 {
		return c.shrunk - c.cold - c.Panel.Volume(float64(c.store.Ambient)-press)
	}
	const top = 20e6
	press, err := root.Brent(func(press float64) float64 {
		return c.vapour + m.pressure(space(press)) - press
	}, c.vapour, top, 0)
	if err != nil {
		return State{}, fmt.Errorf("hotfill: settle: no equilibrium between ‹%.6g and %.6g kPa(a)›: %w", c.vapour/1e3, top/1e3, err)
	}
	if !(space(press) > 0) {
		return c.full(m)
	}
	free, err := m.volume(float64(c.store.Ambient) - c.vapour)
	if err != nil {
		return State{}, fmt.Errorf("hotfill: settle: %w", err)
	}
	s := c.state(press, m.headspace(space(press)), free)
	c.judge(&s)
	return s, nil
}

// Amounts returns the dry gas that is in the pack when it is closed, in drink
// and headspace together [mol]: oxygen, and nitrogen with its dose. It is what a
// life of the pack starts from. Refusals as in [Cool]; the store is not read.
func Amounts(p Pack, a Air) (oxygen, nitrogen float64, err error) {
	st := Store{Temperature: p.Temperature}
	c, err := p.close(st)
	if err != nil {
		return 0, 0, err
	}
	m, err := c.mixture(a)
	if err != nil {
		return 0, 0, err
	}
	return m.gas[0].n, m.gas[1].n, nil
}

// mixture returns the gas of the pack shared between liquid and headspace.
func (c *closed) mixture(a Air) (mixture, error) {
	for _, r := range [...]struct {
		item   string
		x, max float64
		symbol string
	}{
		{"water", a.Water, 1, "kg/kg"},
		{"solubility of oxygen", a.OxygenSolubility, 1e-6, "mol/(kg Pa)"},
		{"solubility of nitrogen", a.NitrogenSolubility, 1e-6, "mol/(kg Pa)"},
		{"dissolved oxygen", a.Oxygen, 0.1, "kg/m³"},
		{"dissolved nitrogen", a.Nitrogen, 0.1, "kg/m³"},
	} {
		if !(r.x >= 0) || r.x > r.max {
			return mixture{}, refuse("gases", r.item, r.x, r.symbol, fmt.Sprintf("‹0..%g %s›", r.max, r.symbol), "check the unit")
		}
	}
	m := mixture{water: c.Fill * c.Liquid.Density(c.FillAt) * a.Water, rt: c.rt()}
	m.gas[0] = share{airOxygen*c.air + a.Oxygen*c.hot/oxygenMass, a.OxygenSolubility}
	m.gas[1] = share{(1-airOxygen)*c.air + c.nitrogen + a.Nitrogen*c.hot/nitrogenMass, a.NitrogenSolubility}
	return m, nil
}

// full returns the state without a headspace: the wall has followed the liquid.
func (c *closed) full(m mixture) (State, error) {
	vacuum, ok := c.Panel.vacuumAt(c.shrunk - c.cold)
	press := float64(c.store.Ambient) - vacuum
	if !ok || !(press > 0) {
		return State{}, refuse("headspace", "volume in the store", 0, "mL", "more than ‹0 mL›", "the gas dissolves and the wall gives no more: check the panel curve and the dissolved gas")
	}
	s := c.state(press, 0, 0)
	s.Dry = m.pressure(0)
	s.Warnings = append(s.Warnings, fmt.Sprintf(
		"hotfill: the headspace gas dissolves altogether (%s in the liquid): the liquid fills the bottle at a vacuum of %s", drop(s.Dry), drop(vacuum)))
	c.judge(&s)
	return s, nil
}

// share is one gas: the amount, dissolved and gaseous together [mol], and its
// solubility [mol/(kg Pa)].
type share struct{ n, k float64 }

// mixture is the dry gas shared between liquid and headspace.
type mixture struct {
	gas   [2]share
	water float64 // kg
	rt    float64
}

// partial returns the partial pressure of gas i over a gas space v [Pa]. With
// neither water nor gas space it has no bound: a large number keeps the
// equation continuous.
func (m mixture) partial(i int, v float64) float64 {
	g := m.gas[i]
	if g.n == 0 {
		return 0
	}
	return min(g.n/(m.water*g.k+max(v, 0)/m.rt+1e-30), 1e9)
}

func (m mixture) pressure(v float64) float64 { return m.partial(0, v) + m.partial(1, v) }

// headspace returns the gas volume from what has not dissolved, by the gas law
// [m³]; v is the gas space at which the partial pressures are taken.
func (m mixture) headspace(v float64) float64 {
	p := m.pressure(v)
	if p == 0 {
		return v
	}
	var n float64
	for i, g := range m.gas {
		n += g.n - m.water*g.k*m.partial(i, v)
	}
	return n * m.rt / p
}

// volume returns the gas space at which the dry pressure is p [m³]; 0 where
// the liquid takes up all the gas at a lower one.
func (m mixture) volume(p float64) (float64, error) {
	if m.pressure(0) <= p {
		return 0, nil
	}
	all := (m.gas[0].n + m.gas[1].n) * m.rt / p // none dissolved
	return root.Brent(func(v float64) float64 { return m.pressure(v) - p }, 0, all, 0)
}
