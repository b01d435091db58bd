package conduct

import (
	"fmt"
	"math"
)

// Stuff is what the wall is made of.
type Stuff struct {
	Density      float64 // kg/m³
	Conductivity float64 // W/(m K)
	heat         table
}

// table is the enthalpy over temperature at even nodes, straight between
// them; beyond the ends it runs on with the last slope.
type table struct {
	low, per float64
	h        []float64
}

func (t *table) at(T float64) (h, cp float64) {
	x := (T - t.low) * t.per
	i := min(max(int(x), 0), len(t.h)-2)
	cp = (t.h[i+1] - t.h[i]) * t.per
	return t.h[i] + cp*(T-t.low-float64(i)/t.per), cp
}

// Constant returns a stuff of constant heat capacity [J/(kg K)].
func Constant(density, conductivity, cp float64) (Stuff, error) {
	return Tabulated(density, conductivity, 0, 1, []float64{0, cp})
}

// Tabulated returns a stuff whose specific enthalpy [J/kg] is given at even
// temperatures low, low+step, ... [K]; it must rise. Between them the heat
// capacity is constant, beyond them it stays what it is at the end.
func Tabulated(density, conductivity, low, step float64, enthalpy []float64) (Stuff, error) {
	switch {
	case !(density > 0) || math.IsInf(density, 0):
		return Stuff{}, fmt.Errorf("conduct: stuff: density %g kg/m³ not above 0", density)
	case !(conductivity > 0) || math.IsInf(conductivity, 0):
		return Stuff{}, fmt.Errorf("conduct: stuff: conductivity %g W/(m K) not above 0", conductivity)
	case !(step > 0) || math.IsInf(low, 0) || math.IsNaN(low) || len(enthalpy) < 2:
		return Stuff{}, fmt.Errorf("conduct: stuff: enthalpy wants two values or more at a step above 0, has %d at %g K", len(enthalpy), step)
	}
	for i := 1; i < len(enthalpy); i++ {
		if d := enthalpy[i] - enthalpy[i-1]; !(d > 0) || math.IsInf(d, 0) {
			return Stuff{}, fmt.Errorf("conduct: stuff: enthalpy does not rise from %g K to %g K", low+float64(i-1)*step, low+float64(i)*step)
		}
	}
	return Stuff{Density: density, Conductivity: conductivity, heat: table{low: low, per: 1 / step, h: append([]float64(nil), enthalpy...)}}, nil
}

// Enthalpy returns the specific enthalpy [J/kg] of the law at T [K].
func (s *Stuff) Enthalpy(T float64) float64 { h, _ := s.heat.at(T); return h }
