package footprint

import (
	"fmt"
	"math"

	"costrel/cite"
)

// Saved is what a change saves in a year.
type Saved struct {
	Resin   float64 // kg CO2e a year
	Closure float64
	Energy  float64
	Total   float64
}

// Change returns the greenhouse gas that a change saves in a year [kg CO2e].
//
//	resin    m [(1-r) f_virgin + r f_recycled]
//	closure  m_closure f_closure
//	energy   E f_electricity
//
// resin, closure [kg a year] and energy [J a year] are the amounts saved,
// negative where the change takes more; r is the recycled share, 0..1.
func Change(resin, recycled, closure, energy float64, factors cite.Card) (Saved, error) {
	for _, r := range []struct {
		name  string
		value float64
	}{{"resin [kg]", resin}, {"closure [kg]", closure}, {"energy [J]", energy}} {
		if !(math.Abs(r.value) <= 1e18) {
			return Saved{}, fmt.Errorf("footprint: change: %s: %g outside -1e18..1e18", r.name, r.value)
		}
	}
	if !(recycled >= 0) || recycled > 1 {
		return Saved{}, fmt.Errorf("footprint: change: recycled share %g outside 0..1", recycled)
	}
	b := builder(factors)
	virgin, second, cap, grid := b.Rate("resin.virgin"), b.Rate("resin.recycled"), b.Rate("closure"), b.Rate("electricity")
	if err := b.Err(); err != nil {
		return Saved{}, err
	}
	s := Saved{
		Resin:   resin * ((1-recycled)*virgin.Value + recycled*second.Value),
		Closure: closure * cap.Value,
		Energy:  energy * grid.Value,
	}
	s.Total = s.Resin + s.Closure + s.Energy
	return s, nil
}
