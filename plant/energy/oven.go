package energy

import "fmt"

// Ideal returns the heat that raises the heated part of one preform to the
// blowing temperature [J].
//
//	Q = m dh
//
// mass is the heated mass: preform less finish [kg], 0..1 kg; enthalpy the
// rise of the resin from its start to its blowing temperature [J/kg],
// 0..500 kJ/kg (about 125 kJ/kg from 20 to 105 °C).
func Ideal(mass, enthalpy float64) (float64, error) {
	if !(mass > 0) || mass > 1 {
		return 0, fmt.Errorf("energy: oven: mass %g g outside 0..1000 g", mass*1e3)
	}
	if !(enthalpy > 0) || enthalpy > 500e3 {
		return 0, fmt.Errorf("energy: oven: enthalpy rise %g kJ/kg outside 0..500 kJ/kg", enthalpy/1e3)
	}
	return mass * enthalpy, nil
}

// Oven returns the electric energy of the oven for one bottle [J]: the ideal
// heat over the efficiency, 0..1.
func Oven(ideal, efficiency float64) (float64, error) {
	if !(ideal > 0) || ideal > 500e3 {
		return 0, fmt.Errorf("energy: oven: ideal heat ‹%g kJ› outside ‹0..500 kJ›", ideal/1e3)
	}
	if !(efficiency > 0) || efficiency > 1 {
		return 0, fmt.Errorf("energy: oven: efficiency %g outside 0..1", efficiency)
	}
	return ideal / efficiency, nil
}

// Zone is one lamp zone of an oven.
type Zone struct {
	Lamps   int     // lamps of the zone, all modules together
	Rated   float64 // power of one lamp at full voltage [W]
	Setting float64 // share of the rated power, 0..1
}

// LampPower returns the electric power of all lamps [W]: the sum of lamps
// times rated power times setting, times the overall setting 0..1 of the oven.
func LampPower(zones []Zone, overall float64) (float64, error) {
	if !(overall >= 0) || overall > 1 {
		return 0, fmt.Errorf("energy: lamps: overall setting %g outside 0..1", overall)
	}
	if len(zones) == 0 {
		return 0, fmt.Errorf("energy: lamps: no zones")
	}
	var p float64
	for i, z := range zones {
		switch {
		case z.Lamps < 0 || z.Lamps > 10000:
			return 0, fmt.Errorf("energy: lamps: zone %d: %d lamps outside 0..10000", i+1, z.Lamps)
		case !(z.Rated >= 0) || z.Rated > 20e3:
			return 0, fmt.Errorf("energy: lamps: zone %d: rated power %g W outside 0..20000 W", i+1, z.Rated)
		case !(z.Setting >= 0) || z.Setting > 1:
			return 0, fmt.Errorf("energy: lamps: zone %d: setting %g outside 0..1", i+1, z.Setting)
		}
		p += float64(z.Lamps) * z.Rated * z.Setting
	}
	return p * overall, nil
}

// PerBottle spreads a constant power [W] over the bottles of a machine with
// the given rate [bottles/s] and returns the energy of one bottle [J].
func PerBottle(power, rate float64) (float64, error) {
	if !(power >= 0) || power > 100e6 {
		return 0, fmt.Errorf("energy: power %g kW outside 0..100000 kW", power/1e3)
	}
	if !(rate > 0) || rate > 100 {
		return 0, fmt.Errorf("energy: rate %g bottles/h outside 0..360000 bottles/h", rate*3600)
	}
	return power / rate, nil
}

// Cooling returns the electric energy of the chiller for one bottle [J]: the
// heat taken out [J] over the coefficient of performance, 0.5..20.
func Cooling(heat, cop float64) (float64, error) {
	if !(heat >= 0) || heat > 1e6 {
		return 0, fmt.Errorf("energy: cooling: heat ‹%g kJ› outside ‹0..1000 kJ›", heat/1e3)
	}
	if !(cop >= 0.5) || cop > 20 {
		return 0, fmt.Errorf("energy: cooling: coefficient of performance %g outside 0.5..20", cop)
	}
	return heat / cop, nil
}
