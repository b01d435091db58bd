package shell

import "fmt"

// FirstBuckle brings the model from its present state to a load in steps, with
// large displacement and yield, and returns the first load on the way at which
// the wall leaves its round form in one of the harmonics (nil for 1..15).
// Critical.Load is the share of the way, 0..1; found is false when the whole
// way is stable. Pressure follows the wall. The model ends at the last good
// load, which an error names.
//
// The round fold, harmonic 0, is the limit of the path itself: a step that does
// not settle. Harmonic 0 may be asked for where the load is dead.
func (m *Model) FirstBuckle(to Load, steps int, waves []int) (c Critical, found bool, err error) {
	if bad(to.Pressure) || bad(to.Force) || steps < 1 || steps > 10000 {
		return c, false, fmt.Errorf("shell: first buckle: pressure ‹%g Pa›, force ‹%g N›, %d steps", to.Pressure, to.Force, steps)
	}
	if waves == nil {
		waves = Harmonics(15)[1:]
	}
	for _, n := range waves {
		if n < 0 || n > 100 {
			return c, false, fmt.Errorf("shell: first buckle: harmonic %d outside 0..100", n)
		}
	}
	from := Load{m.p, m.load}
	if err := m.solve(step{pressure: m.p, force: m.load}); err != nil {
		return c, false, fmt.Errorf("shell: first buckle: at the start: %w", err)
	}
	path := []snapshot{m.snap(0, 0)}
	var lost error
	for i := 1; i <= steps && lost == nil; i++ {
		x := float64(i) / float64(steps)
		lost = m.Nonlinear(Load{from.Pressure + x*(to.Pressure-from.Pressure), from.Force + x*(to.Force-from.Force)}, 1)
		if lost == nil {
			path = append(path, m.snap(x, x))
		}
	}
	c, _, found, err = m.branch(path, waves)
	if err == nil && !found {
		err = lost
	}
	return c, found, err
}
