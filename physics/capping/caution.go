package capping

import "costrel/unit"

// Caution is a text to show with an answer, and its source.
type Caution struct {
	Text   string
	Source string // key in cite
}

// Cautions returns the cautions that belong to closures on a pack that stands
// or is tested at a gauge pressure; none without pressure. They are for the
// people at the bench, and are no safety analysis.
func Cautions(p unit.GaugePressure) []Caution {
	if !(p > 0) {
		return nil
	}
	out := []Caution{
		{"A closed bottle under pressure is a charged vessel, more so when warm. Closures may leave it explosively (\"missiling\"): many eye injuries are on record, many of them to children. Keep faces and other people out of the line of the closure; use a shield and eye protection.", "Willhoft1996"},
		{"Injuries to the eye by bottle tops of carbonated drinks are severe: a quarter of the eyes in one survey stayed legally blind.", "Kuhn2004"},
		{"Chill the pack and open it slowly: stop at the first gas and let it leave before turning on. Degas a sample before cutting it.", "CommonPractice"},
	}
	if p >= 6e5 {
		out = append(out, Caution{"Pressure and blow-off tests: fill with water, not gas, work behind a full guard with the valve outside it, two people present, and let the pressure off before you open the guard. Expect the closure, the band or the bottle base to fly.", "CommonPractice"})
	}
	return append(out, Caution{"A computed margin is an engineering estimate from generic data. It does not replace the pressure, opening, impact, top-load and elevated-temperature tests of this closure on this neck.", "CommonPractice"})
}
