package inject

import (
	"errors"
	"fmt"
	"math"

	"costrel/unit"
)

// AldehydeRate returns the rate at which the melt makes acetaldehyde, mass
// fraction a second (1e-6 is 1 ppm/s), of order zero:
//
//	dC/dt = f A exp(-E/(R T))
//
// above 251.8 °C E = 156.9 kJ/mol, A = 6.8e13 ppm/s; below 34.3 kJ/mol,
// 43 ppm/s. f is the resin's rate over that of the resin measured: 0.1 to 0.4
// for those of today; 1 for the published one. T in 150..310 °C.
//
// The unit of A was not in the abstract; ppm is inferred from the crossing at
// the melting point. Source: Halek1986.
func AldehydeRate(t unit.Temperature, f float64) (float64, error) {
	if err := errors.Join(
		within("acetaldehyde", "melt temperature", t.Celsius(), 150, 310, 1, "°C"),
		within("acetaldehyde", "resin factor", f, 0, 3, 1, ""),
	); err != nil {
		return 0, err
	}
	c := deck.Card("aldehyde")
	e, a := c.Value("activation_melt"), c.Value("factor_melt")
	if float64(t) < c.Value("melting") {
		e, a = c.Value("activation_solid"), c.Value("factor_solid")
	}
	return f * a * 1e-6 * math.Exp(-e/(unit.GasConstant*float64(t))), nil
}

// Stay is a time in the melt at one temperature: barrel, hot runner.
type Stay struct {
	Temperature unit.Temperature
	Time        float64 // s
}

// Aldehyde returns the acetaldehyde in the preform as a mass fraction: the sum
// of [AldehydeRate] over the stays. None is lost on the way, which is the safe
// side. f is the resin factor. It warns where the sum passes the limit of the
// drink, 3 ppm for still water and 8 ppm for cola and what else hides the taste,
// and where a stay is longer than 180 s: beyond it the rise is known to steepen
// in hot runners (Lucchetta2014). The resin's own potential counts, not its
// viscosity (Bashir2002).
func Aldehyde(stays []Stay, f float64, water bool) (float64, []string, error) {
	if len(stays) == 0 {
		return 0, nil, fmt.Errorf("inject: acetaldehyde: no time in the melt given")
	}
	sum, all := 0.0, 0.0
	for i, s := range stays {
		r, err := AldehydeRate(s.Temperature, f)
		if err == nil {
			err = within("acetaldehyde", "time", s.Time, 0, 1800, 1, "s")
		}
		if err != nil {
			return 0, nil, fmt.Errorf("stay %d: %w", i+1, err)
		}
		sum += r * s.Time
		all += s.Time
	}
	var warn []string
	limit, drink := datum("aldehyde", "cola").Value, "a drink with taste or carbonation"
	if water {
		limit, drink = datum("aldehyde", "water").Value, "still water"
	}
	if sum > limit {
		warn = append(warn, fmt.Sprintf("inject: acetaldehyde %.2g ppm above %g ppm for %s: cooler melt, shorter stay, a low-acetaldehyde resin", sum*1e6, limit*1e6, drink))
	}
	if high := datum("aldehyde", "residence").High; all > high {
		warn = append(warn, fmt.Sprintf("inject: %.0f s in the melt above %.0f s: acetaldehyde rises faster than reckoned", all, high))
	}
	return sum, warn, nil
}
