package run

import (
	"fmt"

	"costrel/physics/shell"
	"costrel/unit"
)

// vacuumTest is the vacuum test at laboratory temperature, made once.
func (t *strengthTests) vacuumTest() (shell.VacuumResult, error) {
	if t.sucked == nil {
		r, err := shell.Vacuum(shell.VacuumInput{Bottle: t.b, Soft: t.labSoft, Capped: true, Brief: true})
		t.sucked = &sucked{r, err}
	}
	return t.sucked.r, t.sucked.err
}

// sucked is the outcome of the vacuum test.
type sucked struct {
	r   shell.VacuumResult
	err error
}

// standing returns the pressure of the closed pack at a temperature, whose wall has
// the given factor, by its gain of volume; an error where its own vacuum collapses
// it, see [strengthTests.collapsed].
func (t *strengthTests) standing(at unit.Temperature, soft float64) (func(gain float64) (float64, float64), error) {
	of, err := t.pressures.sealed(at)
	if err != nil {
		return nil, err
	}
	gauge, _ := of(0)
	return of, t.collapsed(gauge, soft)
}

// collapsed says that a closed pack cannot stand at a gauge pressure, below that at
// which its round wall without any dent collapses at a factor of temperature; nil
// where it can, or where the collapse is not known.
func (t *strengthTests) collapsed(gauge, soft float64) error {
	if gauge >= 0 {
		return nil
	}
	if r, err := t.vacuumTest(); err == nil {
		if bears := r.Collapse * soft / t.labSoft; -gauge > bears {
			return fmt.Errorf("the pack would stand at %s, and its wall collapses at %s even without a dent: more wall, nitrogen or, in a cold fill, more gas in the drink; see vacuum.collapse",
				unit.Quote(unit.PressureGauge, gauge, 3), unit.Quote(unit.PressureGauge, -bears, 3))
		}
	}
	return nil
}
