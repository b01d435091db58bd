package air

import (
	"fmt"

	"costrel/unit"
)

// Convention says how the normal volume of a charge is counted.
type Convention string

// The conventions.
const (
	// TradeGauge is the trade's habit: litres times bar(g), as if a bar of
	// gauge pressure were one normal atmosphere. It leaves out the air that
	// stays in the bottle at ambient pressure, and the temperature.
	TradeGauge Convention = "volume times bar(g)"
	// TradeAbsolute is the same with bar(a).
	TradeAbsolute Convention = "volume times bar(a)"
	// Strict is the amount of air drawn from the compressor, as the volume it
	// has at 0 °C and 101325 Pa.
	Strict Convention = "normal cubic metres, strict"
)

// bar is the trade's unit of air pressure [Pa].
const bar = 1e5

// Shot is what one blow fills.
type Shot struct {
	Bottle      float64            // inside volume of the bottle [m³]
	Dead        float64            // volume between valve and bottle that is vented with it [m³]
	Preform     float64            // inside volume of the preform, which holds ambient air at the start [m³]
	Pressure    unit.GaugePressure // high blow [Pa]
	Ambient     unit.AbsPressure   // ambient pressure [Pa]
	Temperature unit.Temperature   // of the air in the charged bottle [K]
}

func (s Shot) check() error {
	switch {
	case !(s.Bottle > 0) || s.Bottle > 0.1:
		return fmt.Errorf("air: volume: bottle ‹%g mL› outside ‹0..100000 mL›", s.Bottle*1e6)
	case !(s.Dead >= 0) || s.Dead > 0.01:
		return fmt.Errorf("air: volume: dead volume ‹%g mL› outside ‹0..10000 mL›", s.Dead*1e6)
	case !(s.Preform >= 0) || s.Preform > s.Bottle:
		return fmt.Errorf("air: volume: preform ‹%g mL› outside ‹0..%g mL›, the bottle", s.Preform*1e6, s.Bottle*1e6)
	case !(s.Pressure > 0) || s.Pressure > 60*bar:
		return fmt.Errorf("air: volume: blow pressure ‹%g bar(g)› outside ‹0..60 bar(g)›", float64(s.Pressure)/bar)
	case !(s.Ambient >= 50e3) || s.Ambient > 110e3:
		return fmt.Errorf("air: volume: ambient pressure ‹%g kPa(a)› outside ‹50..110 kPa(a)›", float64(s.Ambient)/1e3)
	case !(s.Temperature >= 253.15) || s.Temperature > 423.15:
		return fmt.Errorf("air: volume: air temperature ‹%g °C› outside ‹-20..150 °C›", s.Temperature.Celsius())
	}
	return nil
}

// Volume returns the normal volume of air that one bottle takes before any
// recovery [m³].
//
//	TradeGauge     N = (Vb + Vd) p_g / 1 bar
//	TradeAbsolute  N = (Vb + Vd) p_a / 1 bar
//	Strict         N = [(Vb + Vd) p_a - (Vp + Vd) p_0] / p_N * T_N / T
//
// Vb bottle, Vd dead volume, Vp preform; p_a = p_g + p_0 with the ambient p_0;
// p_N = 101325 Pa, T_N = 273.15 K. The strict count subtracts the ambient air
// that preform and dead volume held before, takes air as an ideal gas (its
// compressibility at 40 bar is within 2 % of one) and fills at the one
// temperature T. An unknown convention and a shot outside its range are errors.
// Source: Brandau2019 for the gauge convention.
func Volume(c Convention, s Shot) (float64, error) {
	if err := s.check(); err != nil {
		return 0, err
	}
	pg, pa := float64(s.Pressure), float64(s.Pressure.Abs(s.Ambient))
	switch c {
	case TradeGauge:
		return (s.Bottle + s.Dead) * pg / bar, nil
	case TradeAbsolute:
		return (s.Bottle + s.Dead) * pa / bar, nil
	case Strict:
		pv := (s.Bottle+s.Dead)*pa - (s.Preform+s.Dead)*float64(s.Ambient)
		return pv / float64(unit.Atm) * float64(unit.ZeroCelsius) / float64(s.Temperature), nil
	}
	return 0, fmt.Errorf("air: volume: convention %q is none of %q, %q, %q", c, TradeGauge, TradeAbsolute, Strict)
}

// DeadVolume returns the dead volume [m³] that a stated air consumption
// implies: the inverse of [Volume] for Vd. normal is the normal volume of one
// bottle [m³], i.e. flow over bottle rate; s.Dead is not read. A consumption
// below what the bottle alone takes is an error.
// Source: Brandau2019.
func DeadVolume(c Convention, normal float64, s Shot) (float64, error) {
	s.Dead = 0
	n0, err := Volume(c, s)
	if err != nil {
		return 0, err
	}
	if !(normal >= n0) {
		return 0, fmt.Errorf("air: dead volume: ‹%g NL› a bottle is below the ‹%g NL› of the bottle itself", normal*1e3, n0*1e3)
	}
	// Volume is linear in Vd: one more point gives the slope.
	s.Dead = 1e-3
	n1, err := Volume(c, s)
	if err != nil {
		return 0, err
	}
	return (normal - n0) / (n1 - n0) * s.Dead, nil
}
