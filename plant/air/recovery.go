package air

import (
	"fmt"

	"costrel/unit"
)

// Recoverable returns the share of a shot's air that can be passed on to a
// system at the recovery pressure instead of being blown off [1].
//
//	phi = (p - p_rec) / p * eta
//
// p and p_rec are gauge pressures [Pa]; eta in 0..1 is the part of the ideal
// exchange that valve times and losses leave. The share refers to the gauge
// convention of [Volume]: the charge expands to the recovery pressure and the
// rest is vented. A recovery pressure at or above p is an error.
// Method: mass balance of an isothermal charge.
func Recoverable(p, rec unit.GaugePressure, eta float64) (float64, error) {
	if !(p > 0) || p > 60*bar {
		return 0, fmt.Errorf("air: recovery: blow pressure ‹%g bar(g)› outside ‹0..60 bar(g)›", float64(p)/bar)
	}
	if !(rec >= 0) || rec >= p {
		return 0, fmt.Errorf("air: recovery: recovery pressure ‹%g bar(g)› outside ‹0..%g bar(g)›, the blow pressure", float64(rec)/bar, float64(p)/bar)
	}
	if !(eta >= 0) || eta > 1 {
		return 0, fmt.Errorf("air: recovery: efficiency %g outside 0..1", eta)
	}
	return float64(p-rec) / float64(p) * eta, nil
}

// Net returns the normal volume [m³] that the compressor still has to supply
// when the given share of the gross volume is recovered into the same system.
//
//	N_net = N (1 - share)
func Net(gross, share float64) (float64, error) {
	if !(gross >= 0) || gross > 100 {
		return 0, fmt.Errorf("air: net volume: ‹%g Nm³› outside ‹0..100 Nm³›", gross)
	}
	if !(share >= 0) || share >= 1 {
		return 0, fmt.Errorf("air: net volume: recovery share %g outside 0..1", share)
	}
	return gross * (1 - share), nil
}

// Saved returns the work of compression that recovered air replaces [J a
// bottle]: recovered share times normal volume times the work per normal
// volume up to the recovery pressure.
//
//	E = phi N w(p_rec)
//
// gross is the normal volume of a bottle [m³], work the electric work per
// normal volume at the recovery pressure [J/Nm³].
func Saved(share, gross, work float64) (float64, error) {
	if !(share >= 0) || share > 1 {
		return 0, fmt.Errorf("air: saved work: recovery share %g outside 0..1", share)
	}
	if !(gross >= 0) || gross > 100 {
		return 0, fmt.Errorf("air: saved work: ‹%g Nm³› outside ‹0..100 Nm³›", gross)
	}
	if !(work >= 0) || work > 10e6 {
		return 0, fmt.Errorf("air: saved work: %g kWh/Nm³ outside 0..2.8 kWh/Nm³", work/3.6e6)
	}
	return share * gross * work, nil
}
