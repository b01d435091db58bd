package permeation

import (
	"fmt"
	"math"

	"costrel/unit"
)

// Capacity returns the gas that a pack gives up per pascal of fall in partial
// pressure [mol/Pa]: dissolved in water and in the headspace.
//
//	c = m_w k + Vg/(R T)
//
// water [kg], solubility k [mol/(kg·Pa)], headspace Vg [m³]. Ideal gas, rigid
// bottle; the wall's own holding is left out.
func Capacity(water, solubility, headspace float64, t unit.Temperature) (float64, error) {
	switch {
	case !(water >= 0) || water > 1000:
		return 0, fmt.Errorf("permeation: capacity: water %g kg outside 0..1000 kg", water)
	case !(solubility >= 0) || solubility > 1e-4:
		return 0, fmt.Errorf("permeation: capacity: solubility %g mol/(kg Pa) outside 0..1e-4 mol/(kg Pa)", solubility)
	case !(headspace >= 0) || headspace > 1:
		return 0, fmt.Errorf("permeation: capacity: headspace ‹%g mL› outside ‹0..1e6 mL›", headspace*1e6)
	}
	if err := CheckTemperature(t); err != nil {
		return 0, err
	}
	return water*solubility + headspace/(unit.GasConstant*float64(t)), nil
}

func checkLoss(conductance, capacity float64) error {
	if !(conductance >= 0) || math.IsInf(conductance, 0) {
		return fmt.Errorf("permeation: loss: conductance %g mol/(s Pa), want 0 or more", conductance)
	}
	if !(capacity > 0) || math.IsInf(capacity, 0) {
		return fmt.Errorf("permeation: loss: capacity %g mol/Pa, want more than 0", capacity)
	}
	return nil
}

// LossExponential returns the share of a gas lost after a time from a pack that
// is always in equilibrium with itself and loses in proportion to its pressure.
//
//	1 - exp(-K t/c)
//
// conductance K of wall and closure [mol/(s·Pa)], [Capacity] c [mol/Pa], time
// [s]. It leaves out what the wall takes up first, the growth of the bottle and
// the fall of permeability with pressure: for two weeks and more a first
// estimate, not a shelf life. Nothing of the gas is taken to be outside.
func LossExponential(conductance, capacity, time float64) (float64, error) {
	if err := checkLoss(conductance, capacity); err != nil {
		return 0, err
	}
	if !(time >= 0) || math.IsInf(time, 0) {
		return 0, fmt.Errorf("permeation: loss: time %g s, want 0 or more", time)
	}
	return -math.Expm1(-conductance * time / capacity), nil
}

// TimeToLoss returns the time [s] after which the share is lost, the inverse of
// [LossExponential]. share 0..1; without a conductance it is never, an error.
func TimeToLoss(conductance, capacity, share float64) (float64, error) {
	if err := checkLoss(conductance, capacity); err != nil {
		return 0, err
	}
	if !(share >= 0) || share >= 1 {
		return 0, fmt.Errorf("permeation: loss: share %g outside 0..1", share)
	}
	if share == 0 {
		return 0, nil
	}
	t := -math.Log1p(-share) * capacity / conductance
	if conductance == 0 || math.IsInf(t, 0) {
		return 0, fmt.Errorf("permeation: loss: a conductance of %g mol/(s Pa) never loses a share of %g", conductance, share)
	}
	return t, nil
}

// Transmission returns the steady flow of a gas through a conductance [mol/s],
// from outside to inside; negative outwards.
//
//	J = K (p_out - p_in)
//
// Partial pressures [Pa], 0..2 MPa. For oxygen in air p_out is 0.2095 of the
// dry ambient pressure, and p_in about 0 where the drink consumes it.
func Transmission(conductance, outside, inside float64) (float64, error) {
	if !(conductance >= 0) || math.IsInf(conductance, 0) {
		return 0, fmt.Errorf("permeation: transmission: conductance %g mol/(s Pa), want 0 or more", conductance)
	}
	for _, p := range []float64{outside, inside} {
		if !(p >= 0) || p > 2e6 {
			return 0, fmt.Errorf("permeation: transmission: partial pressure ‹%g bar› outside ‹0..20 bar›", p/1e5)
		}
	}
	return conductance * (outside - inside), nil
}

// WaterRate returns the steady loss of water [kg/s]; negative where the pack
// gains.
//
//	J = K (a p_sat - RH p_sat)
//
// conductance of wall and closure for water [kg/(s·Pa)], saturation pressure
// [Pa] at the temperature of pack and store, activity a of the drink, relative
// humidity RH outside, both 0..1.
func WaterRate(conductance, saturation, activity, humidity float64) (float64, error) {
	switch {
	case !(conductance >= 0) || math.IsInf(conductance, 0):
		return 0, fmt.Errorf("permeation: water: conductance %g kg/(s Pa), want 0 or more", conductance)
	case !(saturation >= 0) || saturation > 150e3:
		return 0, fmt.Errorf("permeation: water: saturation pressure ‹%g kPa› outside ‹0..150 kPa›", saturation/1e3)
	case !(activity >= 0) || activity > 1:
		return 0, fmt.Errorf("permeation: water: activity %g outside 0..1", activity)
	case !(humidity >= 0) || humidity > 1:
		return 0, fmt.Errorf("permeation: water: relative humidity %g %% outside 0..100 %%", 100*humidity)
	}
	return conductance * saturation * (activity - humidity), nil
}
