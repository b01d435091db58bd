package drink

import (
	"fmt"

	"costrel/num/root"
	"costrel/unit"
)

// Stated says to what moment the carbonation of a filled pack refers.
type Stated string

const (
	// Sealed is the carbonation read in the closed bottle once liquid and
	// headspace are in equilibrium at Pack.ReferenceT, as test laboratories
	// set it.
	Sealed Stated = "sealed"
	// Filler is the carbonation of the liquid before the bottle is closed. The
	// headspace then takes its share: 6 % for 22 mL over 500 mL.
	Filler Stated = "filler"
)

// Pack is the filling and closing of one bottle.
type Pack struct {
	Fill       float64          // m³ of liquid, gas in it, at FillT
	Brimful    float64          // m³ to the brim, without pressure, at FillT
	FillT      unit.Temperature // K, at closing
	ReferenceT unit.Temperature // K, of the sealed carbonation; unused for Filler
	Ambient    unit.AbsPressure // Pa, at closing and after
	// Air is the share of air in the headspace when it is closed, before
	// pressure builds up; the rest is carbon dioxide in a carbonated drink and
	// condensing steam in a still one. 0..1.
	Air float64
	// NitrogenDose is liquid nitrogen caught in the headspace [mol].
	NitrogenDose float64
	// Growth of the bottle with gauge pressure [1/Pa]; 0 is rigid.
	Growth float64
	// Expansion is the volume expansion of the empty bottle [1/K] from FillT;
	// 0 is none. 0..1e-3.
	Expansion float64
	// Stated is the moment of the carbonation; empty is Sealed.
	Stated Stated
}

// Vessel returns the bottle at T.
func (p Pack) Vessel(t unit.Temperature) Vessel {
	return Vessel{
		Volume:  p.Brimful * (1 + p.Expansion*float64(t.Sub(p.FillT))),
		Growth:  p.Growth,
		Ambient: p.Ambient,
	}
}

// Contents returns what the pack holds once filled with l and closed. The air
// in the headspace is saturated with vapour at FillT. Its gases start in the
// headspace, argon counted as nitrogen, and dissolved in the amounts the drink
// states.
//
// For Sealed the carbon dioxide is that of the liquid plus what stands in the
// headspace in equilibrium at ReferenceT; for Filler it is that of the liquid
// plus what was in the headspace at closing.
//
// Errors: an input outside its range; Fill not below Brimful; no equilibrium.
func (p Pack) Contents(l Liquid) (Contents, error) {
	if err := p.check(); err != nil {
		return Contents{}, err
	}
	if err := l.check(p.FillT, p.Ambient); err != nil {
		return Contents{}, err
	}
	c := Contents{Liquid: p.Fill * l.Density(p.FillT)}
	water := c.Liquid * (1 - l.w)
	c.Counted = l.Molality() * water
	dry := float64(p.Ambient) - l.VapourPressure(p.FillT)
	if dry < 0 {
		return Contents{}, fmt.Errorf("drink: closed: water boils at %s under ‹%.0f Pa›", unit.Quote(unit.TemperaturePoint, float64(p.FillT), 4), float64(p.Ambient))
	}
	headspace := dry * (p.Brimful - p.Fill) / (gasR * float64(p.FillT)) // mol
	litres := c.Liquid / l.Density(bookT)                               // m³ at 20 °C
	c.Oxygen = AirOxygen*p.Air*headspace + l.drink.Oxygen*litres/MolarMassOxygen
	c.Nitrogen = (1-AirOxygen)*p.Air*headspace + l.drink.Nitrogen*litres/MolarMassNitrogen + p.NitrogenDose
	if l.drink.Carbonation == 0 {
		return c, nil
	}
	if p.Stated == Filler {
		c.CO2 = c.Counted + (1-p.Air)*headspace
		return c, nil
	}
	var err error
	c.CO2, err = p.sealed(l, c)
	return c, err
}

// sealed returns the total carbon dioxide [mol] of a bottle whose liquid holds
// c.Counted in equilibrium at ReferenceT.
func (p Pack) sealed(l Liquid, c Contents) (float64, error) {
	v := p.Vessel(p.ReferenceT)
	if err := checkVessel(c, v); err != nil {
		return 0, err
	}
	e := l.balanceOf(c, v, p.ReferenceT)
	m := l.Molality()
	e.CO2, e.Counted = 0, 0 // the liquid is held at m, so its volume is that measured
	residual := func(x float64) float64 { return m/e.g.solubility(x) + e.residual(x) }
	const high = float64(MaxPressure)
	if residual(high) > 0 {
		return 0, overPressure("closed", p.ReferenceT)
	}
	x, err := root.Brent(residual, e.vapour, high, 1e-3)
	if err != nil {
		return 0, fmt.Errorf("drink: closed: sealed carbonation: %w", err)
	}
	space := e.bottle(x) - e.liquid
	if space <= 0 {
		return 0, e.full()
	}
	return c.Counted + m/e.g.solubility(x)*space/(e.g.rt+e.g.b*x), nil
}

// Pressure returns the pack filled with l and closed, in equilibrium at T.
// It keeps all gas; loss through the wall is another matter. See
// [Liquid.Equilibrium].
func (l Liquid) Pressure(p Pack, t unit.Temperature) (State, error) {
	c, err := p.Contents(l)
	if err != nil {
		return State{}, err
	}
	s, err := l.Equilibrium(c, p.Vessel(t), t)
	if err == nil && p.Stated != Filler && l.drink.Carbonation > 0 {
		if w, _ := l.law.Check(p.ReferenceT); w != "" {
			s.Warnings = append(s.Warnings, w+" (reference temperature of the sealed carbonation)")
		}
	}
	return s, err
}

func (p Pack) check() error {
	for _, r := range [...]struct {
		item         string
		x, low, high float64
		symbol       string
	}{
		{"closed: fill", p.Fill, 1e-6, 10, "m³"},
		{"closed: brimful", p.Brimful, 1e-6, 20, "m³"},
		{"closed: share of air", p.Air, 0, 1, ""},
		{"closed: nitrogen dose", p.NitrogenDose, 0, 1e3, "mol"},
		{"closed: growth", p.Growth, 0, 1e-6, "1/Pa"},
		{"closed: thermal expansion", p.Expansion, 0, 1e-3, "1/K"},
	} {
		if err := within(r.item, r.x, r.low, r.high, r.symbol); err != nil {
			return err
		}
	}
	if p.Fill >= p.Brimful {
		return fmt.Errorf("drink: closed: fill ‹%.4g mL› not below brimful ‹%.4g mL›", p.Fill*1e6, p.Brimful*1e6)
	}
	if err := checkT("closed: fill temperature", p.FillT); err != nil {
		return err
	}
	switch p.Stated {
	case "", Sealed:
		if err := checkT("closed: reference temperature", p.ReferenceT); err != nil {
			return err
		}
	case Filler:
	default:
		return fmt.Errorf("drink: closed: carbonation stated %q, want %s or %s", p.Stated, Sealed, Filler)
	}
	return nil
}
