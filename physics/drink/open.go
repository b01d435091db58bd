package drink

import (
	"errors"
	"fmt"
	"math"

	"costrel/num/root"
	"costrel/unit"
)

// Limits of the gas model [Pa]: above the first the second virial coefficient
// alone is no longer enough and an answer carries a warning, above the second
// there is no answer.
const (
	WarnPressure unit.AbsPressure = 1.6e6
	MaxPressure  unit.AbsPressure = 4e6
)

// Pressure is the gas over a drink: partial pressures [Pa], their sum, and the
// sum above the ambient pressure.
type Pressure struct {
	CO2, Oxygen, Nitrogen, Water float64
	Total                        unit.AbsPressure
	Gauge                        unit.GaugePressure
	// Warnings name values outside the range of a method, with the limit.
	Warnings []string
}

// Open returns the pressure in equilibrium with the liquid held at its stated
// carbonation and dissolved air: the open chart. Heating a closed bottle gives
// less, see [Liquid.Pressure].
//
//	m = K(T) phi(P) exp(-v (P-1 atm)/(R T)) p_CO2,  P = p_CO2 + a_w p_w + p_O2 + p_N2
//
// ambient is the absolute pressure outside [Pa], 10 kPa to 200 kPa.
//
// Errors: temperature outside LowT..HighT; ambient outside its range; no
// equilibrium below MaxPressure. Outside the range of the law: a warning.
func (l Liquid) Open(t unit.Temperature, ambient unit.AbsPressure) (Pressure, error) {
	if err := l.check(t, ambient); err != nil {
		return Pressure{}, err
	}
	g := l.gasAt(t)
	p := Pressure{
		Water:    l.VapourPressure(t),
		Oxygen:   l.drink.Oxygen / (MolarMassOxygen * l.water * HenryOxygen(t)),
		Nitrogen: l.drink.Nitrogen / (MolarMassNitrogen * l.water * HenryNitrogen(t)),
	}
	rest := p.Water + p.Oxygen + p.Nitrogen
	ideal := l.Molality() / g.k // CO2 pressure were phi and Poynting 1
	p.CO2 = ideal
	total := rest + ideal
	if ideal > 0 && g.a != 0 {
		f := func(x float64) (float64, float64) {
			e := ideal * math.Exp(g.a*x)
			return x - rest - e, 1 - g.a*e
		}
		high := float64(MaxPressure)
		if v, _ := f(high); v < 0 {
			return Pressure{}, overPressure("open", t)
		}
		var err error
		if total, err = root.Newton(f, rest, high, 1e-6); err != nil {
			return Pressure{}, fmt.Errorf("drink: open: %w", err)
		}
		p.CO2 = ideal * math.Exp(g.a*total)
	}
	if total > float64(MaxPressure) {
		return Pressure{}, overPressure("open", t)
	}
	l.finish(&p, t, total, ambient)
	return p, nil
}

// finish fills total, gauge and the warnings common to open and closed packs.
func (l Liquid) finish(p *Pressure, t unit.Temperature, total float64, ambient unit.AbsPressure) {
	p.Total = unit.AbsPressure(total)
	p.Gauge = p.Total.Gauge(ambient)
	if t < 273.15 {
		p.Warnings = append(p.Warnings, fmt.Sprintf("drink: temperature ‹%.1f °C› below ‹0 °C›: properties of water extrapolated; the drink may freeze, swell and burst the pack", t.Celsius()))
	}
	if l.drink.Carbonation > 0 {
		if w, _ := l.law.Check(t); w != "" {
			p.Warnings = append(p.Warnings, w)
		}
		if p.Total > WarnPressure && !l.law.Ideal {
			p.Warnings = append(p.Warnings, fmt.Sprintf(
				"drink: co2: total pressure ‹%.2f bar(a)› above ‹%.0f bar(a)›: second virial coefficient alone", total/1e5, float64(WarnPressure)/1e5))
		}
	}
}

func (l Liquid) check(t unit.Temperature, ambient unit.AbsPressure) error {
	if l.law.henry == nil {
		return errors.New("drink: liquid: zero value, make it with Drink.Liquid")
	}
	return checkState(t, ambient)
}

func checkState(t unit.Temperature, ambient unit.AbsPressure) error {
	if err := checkT("temperature", t); err != nil {
		return err
	}
	return within("ambient pressure", float64(ambient), 1e4, 2e5, "Pa")
}

func overPressure(op string, t unit.Temperature) error {
	return fmt.Errorf("drink: %s: no equilibrium at %s below ‹%.0f bar(a)›", op, unit.Quote(unit.TemperaturePoint, float64(t), 4), float64(MaxPressure)/1e5)
}
